using System.Globalization;
using Swardloop.Model.Checks;

namespace Swardloop.Cli;

/// <summary>One call of a command: its arguments, sorted by the command's syntax, and the terminal.</summary>
internal sealed class Invocation
{
    private readonly CommandSyntax _syntax;
    private readonly Dictionary<string, List<string>> _options = new(StringComparer.Ordinal);
    private readonly List<string> _positionals = [];

    private Invocation(CommandSyntax syntax, Terminal terminal) => (_syntax, Terminal) = (syntax, terminal);

    /// <summary>What is read from and written to.</summary>
    public Terminal Terminal { get; }

    /// <summary>Whether the machine form is wanted.</summary>
    public bool Json { get; private set; }

    /// <summary>Whether only help is wanted.</summary>
    public bool Help { get; private set; }

    /// <summary>All arguments without a dash.</summary>
    public IReadOnlyList<string> Positionals => _positionals;

    /// <summary>Sorts arguments by a command's syntax.</summary>
    /// <exception cref="WrongInputException">An argument is unknown, missing or repeated.</exception>
    public static Invocation Parse(CommandSyntax syntax, ReadOnlySpan<string> arguments, Terminal terminal)
    {
        Invocation call = new(syntax, terminal);
        bool onlyPositionals = false;
        for (int i = 0; i < arguments.Length; i++)
        {
            string argument = arguments[i];
            if (onlyPositionals || !argument.StartsWith('-') || argument == "-")
            {
                call._positionals.Add(argument);
            }
            else if (argument == "--")
            {
                onlyPositionals = true;
            }
            else
            {
                i = call.TakeOption(arguments, i);
            }
        }

        if (!call.Help)
        {
            call.CheckPositionals();
        }

        return call;
    }

    /// <summary>Whether a switch was given.</summary>
    public bool Flag(string option) => _options.ContainsKey(option);

    /// <summary>The value of an option, or null.</summary>
    public string? Value(string option) => _options.TryGetValue(option, out List<string>? values) ? values[0] : null;

    /// <summary>All values of an option that may repeat.</summary>
    public IReadOnlyList<string> Values(string option) => _options.TryGetValue(option, out List<string>? values) ? values : [];

    /// <summary>An option's value as a number, or null when it was not given.</summary>
    /// <param name="option">Its name with dashes.</param>
    /// <param name="least">Smallest value allowed.</param>
    /// <param name="most">Largest value allowed.</param>
    /// <param name="unit">Unit for the message, such as <c>Ω</c>.</param>
    /// <exception cref="WrongInputException">It is not such a number.</exception>
    public double? Number(string option, double least, double most, string unit = "")
    {
        if (Value(option) is not { } text)
        {
            return null;
        }

        bool good = double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            && value >= least && value <= most;
        return good ? value : throw Wrong(option, $"{SafeText.Quoted(text)} is not a number from {Plain(least)} to {Plain(most)}",
            $"a number from {Plain(least)} to {Plain(most)}{(unit.Length > 0 ? " " + unit : "")}");
    }

    /// <summary>An option's value as a whole number, or null when it was not given.</summary>
    /// <exception cref="WrongInputException">It is not such a number.</exception>
    public long? WholeNumber(string option, long least, long most)
    {
        if (Value(option) is not { } text)
        {
            return null;
        }

        bool good = long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value)
            && value >= least && value <= most;
        return good ? value : throw Wrong(option, $"{SafeText.Quoted(text)} is not a whole number from {least} to {most}",
            $"a whole number from {least} to {most}");
    }

    /// <summary>Reads the file that an argument names.</summary>
    /// <param name="position">Which argument without a dash, from 0.</param>
    /// <exception cref="WrongInputException">It cannot be read.</exception>
    public InputText ReadFile(int position = 0) => InputText.Read(_positionals[position], Terminal);

    /// <summary>Reads the file that an argument names, and what it means.</summary>
    /// <param name="read">The file's reader, such as <c>YardFile.Read</c>; takes bytes and the file's name.</param>
    /// <param name="position">Which argument without a dash, from 0.</param>
    /// <exception cref="WrongInputException">It cannot be read, or something in it is wrong.</exception>
    public T ReadChecked<T>(Func<ReadOnlyMemory<byte>, string, Checked<T>> read, int position = 0)
        where T : class
    {
        InputText file = ReadFile(position);
        Checked<T> result = read(file.Bytes, file.Name);
        return result.IsGood ? result.Value : throw WrongInputException.Of(result);
    }

    /// <summary>The exception that says what is wrong with an argument.</summary>
    /// <param name="argument">Which one, as the usage line names it.</param>
    /// <param name="wrong">What is wrong.</param>
    /// <param name="allowed">What is allowed.</param>
    public WrongInputException Wrong(string argument, string wrong, string allowed) =>
        new($"swardloop {_syntax.Name}", argument, wrong, allowed);

    private static string Plain(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private int TakeOption(ReadOnlySpan<string> arguments, int at)
    {
        string argument = arguments[at];
        int equals = argument.IndexOf('=', StringComparison.Ordinal);
        (string name, string? value) = equals < 0 ? (argument, null) : (argument[..equals], argument[(equals + 1)..]);

        if (value is null && name is "--json" or "--help" or "-h")
        {
            (Json, Help) = (Json || name == "--json", Help || name != "--json");
            return at;
        }

        OptionSyntax option = _syntax.Options.FirstOrDefault(option => option.Name == name)
            ?? throw Wrong(SafeText.Quoted(name), "unknown option", string.Join(", ", _syntax.Options.Select(known => known.Name).Append("--json")));
        if (_options.ContainsKey(name) && option.AnotherValue is null)
        {
            throw Wrong(name, "is given twice", "once");
        }

        if (!_options.TryGetValue(name, out List<string>? values))
        {
            _options[name] = values = [];
        }

        if (option.Value is null)
        {
            return value is null ? at : throw Wrong(name, "takes no value", name);
        }

        if (value is null)
        {
            value = ++at < arguments.Length ? arguments[at] : throw Wrong(name, "its value is missing", option.Shown);
        }

        values.Add(value);
        while (option.AnotherValue is { } another && at + 1 < arguments.Length && another(arguments[at + 1]))
        {
            values.Add(arguments[++at]);
        }

        return at;
    }

    private void CheckPositionals()
    {
        for (int i = _positionals.Count; i < _syntax.Positionals.Count; i++)
        {
            if (_syntax.Positionals[i].Required)
            {
                throw Wrong(_syntax.Positionals[i].Name, "is missing", _syntax.Usage);
            }
        }

        bool openEnded = _syntax.Positionals is [.., { Repeats: true }];
        if (!openEnded && _positionals.Count > _syntax.Positionals.Count)
        {
            throw Wrong(SafeText.Quoted(_positionals[_syntax.Positionals.Count]), "is one argument too many", _syntax.Usage);
        }
    }
}
