using Swardloop.Core.Geometry;

namespace Swardloop.Model.Checks;

/// <summary>Collects the problems of one source, so that all are reported at once and a hopeless file does not flood anyone.</summary>
/// <param name="source">What the problems name as their file.</param>
public sealed class ProblemList(string source)
{
    /// <summary>How many problems are kept; further ones are only counted.</summary>
    public const int MostKept = 50;

    private readonly List<Problem> _kept = [];

    /// <summary>File, or what stands for it.</summary>
    public string Source { get; } = source;

    /// <summary>The problems kept, in the order they were found.</summary>
    public IReadOnlyList<Problem> Kept => _kept;

    /// <summary>How many were found beyond those kept.</summary>
    public int Further { get; private set; }

    /// <summary>Whether anything is wrong.</summary>
    public bool Any => _kept.Count > 0;

    /// <summary>Kept and counted ones together.</summary>
    public int Count => _kept.Count + Further;

    /// <summary>Whether further problems are only counted.</summary>
    public bool IsFull => _kept.Count >= MostKept;

    /// <summary>Notes one problem.</summary>
    /// <param name="place">Path to the value in the file.</param>
    /// <param name="message">What is wrong, with the value.</param>
    /// <param name="allowed">What is allowed; may be empty.</param>
    /// <param name="spot">The spot of the plan that is meant; null when the place says it all.</param>
    public void Add(string place, string message, string allowed = "", PlanPoint? spot = null)
    {
        if (IsFull)
        {
            Further++;
        }
        else
        {
            _kept.Add(new(Source, place, message, allowed) { Spot = spot });
        }
    }
}
