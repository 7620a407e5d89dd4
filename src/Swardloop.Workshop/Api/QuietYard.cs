namespace Swardloop.Workshop.Api;

/// <summary>A yard about to go quiet: its last reading leaves few ohms until the weakest place falls silent.</summary>
/// <param name="Yard">The yard.</param>
/// <param name="YardName">What it is called.</param>
/// <param name="Ohms">Last loop resistance read, leads taken off (Ω).</param>
/// <param name="ExpectedOhms">What the loop should measure (Ω).</param>
/// <param name="SpareOhms">Ohms to spare at the weakest place, counted from the last reading (Ω); negative when it is silent already.</param>
/// <param name="ReadAt">When it was read.</param>
public sealed record QuietYard(Guid Yard, string YardName, double Ohms, double ExpectedOhms, double SpareOhms, DateTimeOffset? ReadAt);
