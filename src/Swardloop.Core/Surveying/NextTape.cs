namespace Swardloop.Core.Surveying;

/// <summary>A tape that was not drawn yet and would make the plan firmest.</summary>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
/// <param name="Metres">How long it would be (m).</param>
/// <param name="MeanDeviationNowMetres">Root of the mean variance of all taped coordinates as it is (m).</param>
/// <param name="MeanDeviationThenMetres">What it would be with this tape of ordinary accuracy (m).</param>
public sealed record NextTape(string From, string To, double Metres, double MeanDeviationNowMetres, double MeanDeviationThenMetres);
