using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>Changes handed in, oldest first. Each is taken in once, however often it is sent.</summary>
/// <param name="Changes">At most <see cref="MostChanges"/>.</param>
public sealed record ChangeBatch(IReadOnlyList<Change> Changes)
{
    /// <summary>Most changes in one batch.</summary>
    public const int MostChanges = 200;
}
