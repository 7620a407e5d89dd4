using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Sync;

/// <summary>A change that a device keeps until the server has confirmed it. Its id is its place in the queue.</summary>
/// <param name="Change">The change.</param>
/// <param name="By">Name of the person who made it.</param>
/// <param name="Email">Sign-in name of that person: only under this name may it be delivered.</param>
/// <param name="Refusal">Why the server refused it for good; null while it waits. A refused change counts no more, and stays until a person
/// has looked at it.</param>
public sealed record WaitingChange(Change Change, string By, string Email, IReadOnlyList<FieldProblem>? Refusal = null);
