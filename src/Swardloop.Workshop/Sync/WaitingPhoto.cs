using Swardloop.Workshop.Api;

namespace Swardloop.Workshop.Sync;

/// <summary>A photo whose bytes lie on this device and have not been confirmed by the server. Its record travels as a change; the bytes follow
/// when the server has the record.</summary>
/// <param name="Id">The photo's record.</param>
/// <param name="By">Name of the person who took it.</param>
/// <param name="Email">Sign-in name of that person: only under this name may it be delivered.</param>
/// <param name="Refusal">Why the server refused it for good; null while it waits. The bytes stay until a person has looked at it.</param>
public sealed record WaitingPhoto(Guid Id, string By, string Email, IReadOnlyList<FieldProblem>? Refusal = null);
