using System.Diagnostics.CodeAnalysis;

namespace Swardloop.Model.Checks;

/// <summary>A value that passed every check, or all the problems that kept it from passing; never both, never neither.</summary>
/// <typeparam name="T">What was read.</typeparam>
public sealed class Checked<T>
    where T : class
{
    private Checked(T? value, IReadOnlyList<Problem> problems, int furtherProblems) =>
        (Value, Problems, FurtherProblems) = (value, problems, furtherProblems);

    /// <summary>What was read; <see langword="null"/> when there is a problem.</summary>
    public T? Value { get; }

    /// <summary>The problems, in the order of the file as far as it can be had; at most <see cref="ProblemList.MostKept"/>.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    /// <summary>How many problems there are beyond those listed.</summary>
    public int FurtherProblems { get; }

    /// <summary>Whether there is a value.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    public bool IsGood => Value is not null;

    /// <summary>A value without a problem.</summary>
    public static Checked<T> Good(T value) => new(value, [], 0);

    /// <summary>No value, because of these problems.</summary>
    /// <exception cref="ArgumentException">The list is empty.</exception>
    public static Checked<T> Bad(ProblemList problems) => problems.Any
        ? new(null, problems.Kept, problems.Further)
        : throw new ArgumentException("Without a problem there must be a value.", nameof(problems));

    /// <summary>One line for each problem and, when some were left out, <c>… and N more</c>.</summary>
    public IEnumerable<string> Lines() => FurtherProblems == 0
        ? Problems.Select(problem => problem.ToString())
        : Problems.Select(problem => problem.ToString()).Append($"… and {FurtherProblems} more");
}
