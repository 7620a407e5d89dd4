using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using System.Text;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Cases;

/// <summary>The names that files use for enumerated values: kebab-case of the member's name, with two exceptions that
/// the contract spells otherwise (<c>A</c> and <c>B</c>; <c>short</c>).</summary>
public static class WireName
{
    /// <summary>The name a file uses for a value.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a member of its type.</exception>
    public static string Of<T>(T value)
        where T : struct, Enum =>
        Table<T>.Names.TryGetValue(value, out string? name)
            ? name
            : throw new ArgumentOutOfRangeException(nameof(value), value, "Not a member of its type.");

    /// <summary>A cause's name; two causes are joined by <c>+</c>.</summary>
    public static string Of(Cause cause) =>
        cause.Second is { } second ? $"{Of(cause.First)}+{Of(second)}" : Of(cause.First);

    /// <summary>Every name of a type with what it stands for, in the order of its members.</summary>
    public static IReadOnlyList<KeyValuePair<string, T>> Words<T>()
        where T : struct, Enum =>
        Table<T>.Words;

    /// <summary>The cause that a file means: one name, or two joined by <c>+</c> in either order.</summary>
    public static bool TryReadCause(string name, out Cause cause)
    {
        string[] parts = name.Split('+');
        CauseKind? first = Kind(parts[0]), second = parts.Length == 2 ? Kind(parts[1]) : null;
        bool known = first is not null && (parts.Length == 1 || second is not null);
        cause = known ? new(first!.Value, second) : default;
        return known;
    }

    private static CauseKind? Kind(string name) =>
        Table<CauseKind>.Values.TryGetValue(name, out CauseKind kind) ? kind : null;

    [SuppressMessage("Globalization", "CA1308", Justification = "Lower case is the promised spelling, not a comparison key.")]
    private static string Kebab(string memberName)
    {
        if (memberName == nameof(EchoKind.ShortCircuit))
        {
            return "short";
        }

        if (memberName.Length == 1)
        {
            return memberName;
        }

        StringBuilder kebab = new(memberName.Length + 4);
        foreach (char c in memberName)
        {
            if (char.IsAsciiLetterUpper(c) && kebab.Length > 0)
            {
                kebab.Append('-');
            }

            kebab.Append(char.ToLowerInvariant(c));
        }

        return kebab.ToString();
    }

    private static class Table<T>
        where T : struct, Enum
    {
        public static readonly IReadOnlyList<KeyValuePair<string, T>> Words =
            [.. Enum.GetValues<T>().Select(value => KeyValuePair.Create(Kebab(value.ToString()), value))];

        public static readonly FrozenDictionary<T, string> Names = Words.ToFrozenDictionary(word => word.Value, word => word.Key);

        public static readonly FrozenDictionary<string, T> Values =
            Words.ToFrozenDictionary(word => word.Key, word => word.Value, StringComparer.Ordinal);
    }
}
