using Swardloop.Model.Checks;

namespace Swardloop.Cli;

/// <summary>The arguments or a file are wrong: one line on standard error, exit code 2.</summary>
/// <remarks>The line names the file (or the command), the place in it, what is wrong and what is allowed.</remarks>
internal sealed class WrongInputException : Exception
{
    /// <summary>Something is wrong at a place of a file.</summary>
    /// <param name="file">The file as the person named it.</param>
    /// <param name="place">Where in it, such as <c>loop.joints[1].atM</c>; empty when the whole file is meant.</param>
    /// <param name="wrong">What is wrong.</param>
    /// <param name="allowed">What is allowed.</param>
    public WrongInputException(string file, string place, string wrong, string allowed)
        : base(place.Length == 0 ? $"{file}: {wrong}; allowed: {allowed}" : $"{file}: {place}: {wrong}; allowed: {allowed}")
    {
    }

    /// <summary>Something is wrong, in a line already complete.</summary>
    public WrongInputException(string line)
        : base(line)
    {
    }

    /// <summary>Everything that is wrong with a file, in one line.</summary>
    /// <exception cref="ArgumentException">Nothing is wrong with it.</exception>
    public static WrongInputException Of<T>(Checked<T> refused)
        where T : class
    {
        if (refused.IsGood)
        {
            throw new ArgumentException("Nothing is wrong with it.", nameof(refused));
        }

        // The file is named once; further problems follow with their places.
        string source = refused.Problems[0].Source + ": ";
        IEnumerable<string> further = refused.Lines().Skip(1)
            .Select(line => line.StartsWith(source, StringComparison.Ordinal) ? line[source.Length..] : line);
        return new(string.Join(" | ", further.Prepend(refused.Problems[0].ToString())));
    }
}
