using Swardloop.Model.Checks;

namespace Swardloop.Drawing;

/// <summary>The engine was given a file that is wrong; nothing was computed.</summary>
/// <param name="problems">All that is wrong, with its places.</param>
public sealed class EngineRefusalException(IReadOnlyList<Problem> problems) : Exception(string.Join(" | ", problems))
{
    /// <summary>All that is wrong, with its places.</summary>
    public IReadOnlyList<Problem> Problems { get; } = problems;
}
