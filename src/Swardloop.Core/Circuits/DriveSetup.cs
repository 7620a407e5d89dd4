using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Circuits;

/// <summary>What is put on the loop's terminals.</summary>
public abstract record DriveSetup
{
    private DriveSetup()
    {
    }

    /// <summary>Frequency at which the set-up is solved (Hz); 0 for DC.</summary>
    public virtual double FrequencyHertz => 0;

    /// <summary>The station, its plus at A.</summary>
    /// <param name="Volts">Open-circuit amplitude (V); with 1, currents come per volt.</param>
    /// <param name="Ohms">Source resistance R0 (Ω), 0 or more.</param>
    /// <param name="Hertz">Drive frequency (Hz), above 0.</param>
    public sealed record Station(double Volts, double Ohms, double Hertz) : DriveSetup
    {
        /// <inheritdoc/>
        public override double FrequencyHertz => Hertz;
    }

    /// <summary>An ohmmeter from A to B.</summary>
    /// <param name="LeadOhms">Its two leads (Ω), 0 or more.</param>
    public sealed record Ohmmeter(double LeadOhms = 0) : DriveSetup;

    /// <summary>A battery from A (plus) to B.</summary>
    /// <param name="Volts">Open-circuit voltage (V).</param>
    /// <param name="Ohms">Inner resistance (Ω), 0 or more.</param>
    public sealed record Battery(double Volts = WiringPractice.BatteryVolts, double Ohms = WiringPractice.BatteryOhms) : DriveSetup;

    /// <summary>A tone sender between one terminal and an earth stake; the other terminal open, or on an earth stake of its own.</summary>
    /// <param name="From">The terminal it stands at.</param>
    /// <param name="FarEndEarthed">Whether the other terminal goes to a stake; otherwise it hangs open.</param>
    public sealed record ToneSender(WireEnd From, bool FarEndEarthed = false) : DriveSetup
    {
        /// <summary>Open-circuit amplitude (V).</summary>
        public double Volts { get; init; } = WiringPractice.ToneSenderVolts;

        /// <summary>Inner resistance (Ω), 0 or more.</summary>
        public double Ohms { get; init; } = WiringPractice.ToneSenderOhms;

        /// <summary>Frequency (Hz), above 0.</summary>
        public double Hertz { get; init; } = WiringPractice.ToneHertz;

        /// <summary>Each stake's resistance to remote earth (Ω), above 0.</summary>
        public double StakeOhms { get; init; } = WiringPractice.StakeOhms;

        /// <inheritdoc/>
        public override double FrequencyHertz => Hertz;
    }

    /// <summary>Nothing: both terminals unplugged.</summary>
    public sealed record OpenEnds : DriveSetup;
}
