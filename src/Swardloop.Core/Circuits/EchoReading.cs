using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Circuits;

/// <summary>What a reflectometer at one end of the wire shows first.</summary>
/// <param name="Kind">Break, short or nothing before the far end.</param>
/// <param name="DelaySeconds">Time to the echo and back (s); null when there is none.</param>
/// <param name="RelativeUncertainty">How far the delay may be off, as a share of it.</param>
public sealed record EchoReading(EchoKind Kind, double? DelaySeconds, double RelativeUncertainty);
