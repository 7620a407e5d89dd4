namespace Swardloop.Core.Circuits;

/// <summary>The electrical figures that no drawing of a yard states. Every one is common practice, no source, unless its own line names one;
/// each is a default that a caller may replace.</summary>
public static class WiringPractice
{
    /// <summary>Leakage of sound buried wire to the soil, every splice included (S/m): a sound 100 m loop reads 10 MΩ to earth, a 300 m one
    /// 3.3 MΩ: megohms, not infinity.</summary>
    public const double SoundWireLeakSiemensPerMetre = 1e-9;

    /// <summary>A test stake's resistance to remote earth (Ω): a 30 cm rod of 8 mm in soil of 100 Ω·m gives 250 Ω by Dwight's formula.</summary>
    public const double StakeOhms = 250;

    /// <summary>A multimeter's input resistance on its voltage ranges (Ω).</summary>
    public const double VoltmeterInputOhms = 10e6;

    /// <summary>Open-circuit voltage of the battery put across the wire for the earth-ratio test (V): a block of 9 V.</summary>
    public const double BatteryVolts = 9;

    /// <summary>That battery's inner resistance (Ω).</summary>
    public const double BatteryOhms = 2;

    /// <summary>Across a broken wire whose ends lie in wet soil (Ω), a middle value; tens of kilohms to megohms are met.</summary>
    public const double WetBreakOhms = 200e3;

    /// <summary>Speed of a pulse along buried wire as a share of light's: between PVC and polyethylene insulation, whose factors are
    /// 0.5 to 0.66 (references D3, from memory).</summary>
    public const double VelocityFactor = 0.6;

    /// <summary>How far <see cref="VelocityFactor"/> may be off, as a share of it, unless calibrated on a known length in the same ground.</summary>
    public const double VelocityFactorRelativeUncertainty = 0.1;

    /// <summary>Frequency at which a hand-held capacitance meter measures (Hz).</summary>
    public const double CapacitanceMeterHertz = 1000;

    /// <summary>Tone senders' frequency (Hz).</summary>
    public const double ToneHertz = 1000;

    /// <summary>Tone senders' inner resistance (Ω).</summary>
    public const double ToneSenderOhms = 600;

    /// <summary>Tone senders' open-circuit voltage (V).</summary>
    public const double ToneSenderVolts = 5;
}
