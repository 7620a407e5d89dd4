namespace Swardloop.Core.Diagnosis;

/// <summary>What is wrong with an installation at one moment: the causes at work and the resistance they put in series.</summary>
/// <param name="Present">Bit per <see cref="CauseKind"/>; 0: all is well.</param>
/// <param name="ExtraOhms">Resistance added in series with the wire (Ω); infinity for a dry break.</param>
internal readonly record struct Condition(int Present, double ExtraOhms)
{
    /// <summary>Whether a bad supply still feeds a little: it reads well with nothing on it and sags under load.</summary>
    public bool Tired { get; init; }

    /// <summary>Whether the mower does nothing at all: locked, flat, or showing an error.</summary>
    public bool Locked { get; init; }

    /// <summary>All is well.</summary>
    public static Condition Healthy => default;

    /// <summary>One cause alone.</summary>
    public static Condition Of(CauseKind kind, double extraOhms = 0) => new(1 << (int)kind, extraOhms);

    /// <summary>Whether a cause is at work.</summary>
    public bool Has(CauseKind kind) => (Present & (1 << (int)kind)) != 0;

    /// <summary>The same without one cause.</summary>
    public Condition Without(CauseKind kind) => this with { Present = Present & ~(1 << (int)kind) };

    /// <summary>Both at once.</summary>
    public Condition With(Condition other) => new(Present | other.Present, ExtraOhms + other.ExtraOhms) { Tired = Tired || other.Tired, Locked = Locked || other.Locked };

    /// <summary>Whether the station gets power and makes a signal.</summary>
    public bool SignalIsMade => !(Has(CauseKind.NoMains) || Has(CauseKind.Supply) || Has(CauseKind.Station));
}
