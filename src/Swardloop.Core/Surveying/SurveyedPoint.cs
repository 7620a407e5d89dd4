using Swardloop.Core.Geometry;

namespace Swardloop.Core.Surveying;

/// <summary>Where a taped point lies, and how well that is known.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Place">The adjusted place (m).</param>
/// <param name="EastDeviationMetres">One standard deviation east to west (m).</param>
/// <param name="NorthDeviationMetres">One standard deviation south to north (m).</param>
/// <param name="Correlation">Correlation of the two, −1 to 1.</param>
public sealed record SurveyedPoint(string Name, PlanPoint Place, double EastDeviationMetres, double NorthDeviationMetres, double Correlation);
