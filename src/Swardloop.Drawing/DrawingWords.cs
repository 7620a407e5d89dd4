using System.Globalization;
using Swardloop.Core.Geometry;
using Swardloop.Model.Checks;
using Swardloop.Model.Words;

namespace Swardloop.Drawing;

/// <summary>What the drawings say, and how they write numbers. Another language is another instance; components take it as a cascading value
/// and speak English without one. Gaps are numbered.</summary>
public sealed partial record DrawingWords
{
    private const double MetresPerFoot = 0.3048;

    /// <summary>English.</summary>
    public static DrawingWords English { get; } = new();

    /// <summary>Wording of places, causes and observations.</summary>
    public Phrasebook Phrases { get; init; } = Phrasebook.English;

    /// <summary>What the core says is wrong, or allowed, in this language.</summary>
    public Func<string, string> Problem { get; init; } = text => text;

    /// <summary>How numbers are written.</summary>
    public NumberFormatInfo Numbers { get; init; } = NumberFormatInfo.InvariantInfo;

    /// <summary>Whether lengths are shown and typed in feet; files stay in metres.</summary>
    public bool Feet { get; init; }

#pragma warning disable CS1591 // Each property's default is its English text, which says what it is.
    public string Picture { get; init; } = "Picture of the yard";
    public string PictureKeys { get; init; } = "Arrow keys move the picture, plus and minus zoom, 0 shows all; with shift, arrow keys move the reading mark.";
    public string Described { get; init; } = "{0}: {1} m² of lawn, {2} of wire, {3}.";
    public string DescribedHeard { get; init; } = "With {1} in the loop the mower has reception on {0} % of the lawn; weakest place {2}.";
    public string NoMapYet { get; init; } = "The signal picture is being computed.";
    public string ZoomIn { get; init; } = "Larger";
    public string ZoomOut { get; init; } = "Smaller";
    public string ShowAll { get; init; } = "Show all";
    public string North { get; init; } = "N";
    public string ExtraOhms { get; init; } = "Extra ohms in the wire";
    public string ExtraOhmsValue { get; init; } = "{0} extra: reception on {1} % of the lawn";
    public string Heard { get; init; } = "Reception on {0} % of the lawn with {1} in the loop. Weakest place: {2}.";
    public string HeardNow { get; init; } = "Reception on {0} % of the lawn. Weakest place: {1}.";
    public string WithoutSignal { get; init; } = "without any signal";
    public string Healthy { get; init; } = "Healthy loop";
    public string Today { get; init; } = "Today, by the reading";
    public string WeakestSilent { get; init; } = "Weakest place loses reception";
    public string FivePercentSilent { get; init; } = "5 % of the lawn without reception";
    public string AlreadySilent { get; init; } = "Already so without extra ohms";
    public string Never { get; init; } = "whatever the wire";
    public string SignalAbove { get; init; } = "Signal margin, dB";
    public string Silent { get; init; } = "none";
    public string Wire { get; init; } = "wire";
    public string Station { get; init; } = "station, ends A and B";
    public string Joint { get; init; } = "joint";
    public string Guide { get; init; } = "guide wire";
    public string OneJoint { get; init; } = "one joint";
    public string SoManyJoints { get; init; } = "{0} joints";
    public string LineOfSilence { get; init; } = "limit of reception";
    public string WeakestPlace { get; init; } = "weakest place";
    public string Metal { get; init; } = "metal";
    public string Neighbour { get; init; } = "neighbour's loop";
    public string RiskSpot { get; init; } = "damage likelier";
    public string FaultPlace { get; init; } = "where the fault may be";
    public string OpenHere { get; init; } = "open here next";
    public string MarkedPlace { get; init; } = "place chosen";
    public string At { get; init; } = "{0} east, {1} north";
    public string ReadingHere { get; init; } = "{0}: {1} dB {2}, field {3} per metre";
    public string AboveSilence { get; init; } = "above the limit of reception";
    public string BelowSilence { get; init; } = "below the limit of reception";
    public string OffLawn { get; init; } = "{0}: off the lawn";
    public string NotComputed { get; init; } = "{0}: beyond the map";
    public string PointAtLawn { get; init; } = "Point at the lawn to read the signal there.";

    public string Strip { get; init; } = "The wire from A to B";
    public string StripPlace { get; init; } = "Place along the wire";
    public string StripKeys { get; init; } = "Arrow keys move along the wire, page keys by steps of ten, home and end to the ends.";
    public string GuideOnStrip { get; init; } = "Guide wire {0}, {1}: joins the loop {2} from A";
    public string StripDescribed { get; init; } = "{0} of wire with {1}, unrolled.";
    public string Density { get; init; } = "Where the fault may be";
    public string NoDensity { get; init; } = "Nothing points at a place on the wire.";
    public string NoLikelyPlace { get; init; } = "No wire fault that is still to be found stands out. If there is one, then most likely where the bars are high.";
    public string DensityComing { get; init; } = "Being worked out.";
    public string Within { get; init; } = "{0} % within {1}";
    public string Probes { get; init; } = "What was tried along the wire";
    public string NoProbes { get; init; } = "Nothing was tried along the wire yet.";
    public string ProbesComing { get; init; } = "Being worked out.";
    public string RuledOut { get; init; } = "speaks against {0}";
    public string RulesNothingOut { get; init; } = "rules no place out";
    public string Between { get; init; } = "{0} to {1}";
    public string PlaceWithWords { get; init; } = "{0} along the wire: {1}";
    public string ToOpenNext { get; init; } = "Open next";
#pragma warning restore CS1591

    /// <summary>Fills a text's gaps, numbers as this language writes them.</summary>
    public string Say(string text, params ReadOnlySpan<object?> gaps) => string.Format(Numbers, text, gaps);

    /// <summary>So many joints.</summary>
    public string Joints(int count) => count == 1 ? OneJoint : Say(SoManyJoints, count);

    /// <summary>A problem with what is allowed.</summary>
    public string Line(Problem problem) =>
        Problem(problem.Message) + (problem.Allowed.Length > 0 ? "; " + Say(Allowed, Problem(problem.Allowed)) : "");

    /// <summary>A number with at most so many decimals.</summary>
    public string Number(double value, int decimals = 1)
    {
        double rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero) + 0.0;
        string text = Math.Abs(rounded).ToString(decimals == 0 ? "0" : "0." + new string('#', decimals), Numbers);
        return rounded < 0 ? "−" + text : text;
    }

    /// <summary>A length with its unit; tenths unless asked otherwise.</summary>
    /// <param name="metres">The length (m).</param>
    /// <param name="decimals">Most decimals.</param>
    public string Length(double metres, int decimals = 1) => Feet ? $"{Number(metres / MetresPerFoot, decimals)} ft" : $"{Number(metres, decimals)} m";

    /// <summary>The number that stands for a length, without its unit, as it is typed.</summary>
    public string LengthNumber(double metres, int decimals = 2) => Number(Feet ? metres / MetresPerFoot : metres, decimals);

    /// <summary>The unit of lengths (m).</summary>
    public double UnitMetres => Feet ? MetresPerFoot : 1;

    /// <summary>The unit of lengths.</summary>
    public string LengthUnit => Feet ? "ft" : "m";

    /// <summary>A length that a person typed, in the unit shown; decimal comma or point.</summary>
    /// <param name="text">What was typed.</param>
    /// <returns>Metres; null when it is no number.</returns>
    public double? ParseLength(string? text) =>
        double.TryParse(text?.Trim().Replace(',', '.').Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? Feet ? value * MetresPerFoot : value
            : null;

    /// <summary>A resistance with its unit, three digits.</summary>
    public string Ohms(double ohms) => ohms < 0 ? "−" + Phrases.Ohms(-ohms) : Phrases.Ohms(ohms);

    /// <summary>A margin with its sign, as in <c>+4.2 dB</c>.</summary>
    public string Decibels(double decibels) => decibels < -60
        ? WithoutSignal
        : $"{(decibels >= 0.05 ? "+" : "")}{Number(decibels)} dB";

    /// <summary>A place of the plan.</summary>
    public string Place(PlanPoint point) => Say(At, Length(point.EastMetres), Length(point.NorthMetres));
}
