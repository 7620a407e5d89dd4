using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>Changes handed in, oldest first. Each is taken in once, however often it is sent.</summary>
/// <param name="Changes">At most <see cref="MostChanges"/>.</param>
public sealed record ChangeBatch(IReadOnlyList<Change> Changes)
{
    /// <summary>Most changes in one batch.</summary>
    public const int MostChanges = 200;

    /// <summary>The workshop they were made in, as <see cref="Me.Workshop"/> says; null when not said. Another one refuses them.</summary>
    public Guid? Workshop { get; init; }
}
