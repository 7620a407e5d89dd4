using Swardloop.Workshop.Api;

namespace Swardloop.Storage;

/// <summary>Who hands a change in.</summary>
/// <param name="Name">As written beside the values.</param>
/// <param name="Role">What the person may do.</param>
public sealed record Author(string Name, Role Role)
{
    /// <summary>The name under which an owner's own answers come in.</summary>
    public const string Owner = "owner";
}
