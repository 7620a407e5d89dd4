using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using System.Text;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>The names that steps, causes and their words carry in files and on the command line: the enum's own name in
/// kebab case, <c>LoopResistance</c> ↔ <c>loop-resistance</c>.</summary>
public static class StepNames
{
    private static readonly string[] Names = [.. Enum.GetNames<StepKind>().Select(Kebab)];

    private static readonly FrozenDictionary<string, StepKind> Kinds =
        Enum.GetValues<StepKind>().ToFrozenDictionary(kind => Names[(int)kind], StringComparer.Ordinal);

    /// <summary>A step's name.</summary>
    public static string Of(StepKind kind) => Names[(int)kind];

    /// <summary>The step of that name.</summary>
    public static bool TryParse(string name, out StepKind kind) => Kinds.TryGetValue(name, out kind);

    /// <summary>An enum name in kebab case: <c>EndsSwapped</c> becomes <c>ends-swapped</c>.</summary>
    [SuppressMessage("Globalization", "CA1308", Justification = "Lower case is the promised spelling, not a comparison key.")]
    public static string Kebab(string name)
    {
        StringBuilder kebab = new();
        foreach (char letter in name)
        {
            if (char.IsUpper(letter) && kebab.Length > 0)
            {
                kebab.Append('-');
            }

            kebab.Append(char.ToLowerInvariant(letter));
        }

        return kebab.ToString();
    }
}
