using Swardloop.Model.Checks;

namespace Swardloop.Server.Input;

/// <summary>What was handed in is wrong: answered with problem details that list everything.</summary>
internal sealed class BadInputException(int status, string message, IReadOnlyList<Problem> problems) : Exception(message)
{
    /// <summary>The answer's status, 4xx.</summary>
    public int Status { get; } = status;

    /// <summary>What is wrong.</summary>
    public IReadOnlyList<Problem> Problems { get; } = problems;

    /// <summary>The body is wrong.</summary>
    public static BadInputException Of(ProblemList problems) => new(
        StatusCodes.Status400BadRequest,
        problems.Further == 0 ? "What was sent is wrong." : $"What was sent is wrong; {problems.Further} further problems are not listed.",
        problems.Kept);

    /// <summary>One value is wrong.</summary>
    public static BadInputException Of(string place, string message, string allowed)
    {
        ProblemList problems = new("");
        problems.Add(place, message, allowed);
        return Of(problems);
    }
}
