namespace Swardloop.Model.Steps;

/// <summary>A voltage read at both polarities of the battery that causes it. Half the difference of the signed readings is what the battery
/// causes: a steady stray voltage of the ground stands in both and cancels. The mean of the magnitudes would not do: 0.5 V of stray voltage
/// beside a battery's own 0.1 V would read 0.5 V.</summary>
/// <param name="Outcome">The case file's property that the two make, such as <c>voltsA</c>.</param>
/// <param name="Forward">Name of the reading with the battery as first connected.</param>
/// <param name="Reversed">Name of the reading with the battery turned round.</param>
public sealed record ReversedPair(string Outcome, string Forward, string Reversed)
{
    /// <summary>The two pairs of an earth ratio.</summary>
    public static IReadOnlyList<ReversedPair> EarthRatio { get; } =
        [new("voltsA", "voltsAForward", "voltsAReversed"), new("voltsB", "voltsBForward", "voltsBReversed")];

    /// <summary>The fields that a person types, in the order in which they are read: the battery is turned round once.</summary>
    internal static IReadOnlyList<StepField> Fields { get; } =
    [
        .. EarthRatio.Select(pair => Field(pair.Forward, "battery as first connected")),
        .. EarthRatio.Select(pair => Field(pair.Reversed, "battery turned round")),
    ];

    /// <summary>Half the difference of two signed readings, without sign (V).</summary>
    /// <param name="forwardVolts">Battery as first connected (V).</param>
    /// <param name="reversedVolts">Battery turned round (V).</param>
    public static decimal HalfDifference(decimal forwardVolts, decimal reversedVolts) => Math.Abs(forwardVolts - reversedVolts) / 2;

    private static StepField Field(string name, string meaning) =>
        new(name, StepFieldType.Number, $"to a stake, with its sign, {meaning}") { Unit = "V", Least = -1000, Most = 1000 };
}
