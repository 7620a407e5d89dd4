namespace Swardloop.Core.Circuits;

/// <summary>How strong a tone is at a place along the wire.</summary>
/// <param name="Amperes">Amplitude of the current in the wire there (A): what a coil hears.</param>
/// <param name="Volts">Amplitude of the wire's voltage to remote earth there (V): what a probe held near the wire feels.</param>
public readonly record struct ToneLevel(double Amperes, double Volts);
