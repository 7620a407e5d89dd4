using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Drawn;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Words;

namespace Swardloop.Cli.Commands;

/// <summary>The fault that a case makes likeliest, as <c>reach --case</c> draws and tells it.</summary>
/// <param name="Fault">The fault.</param>
/// <param name="Probability">Of its cause.</param>
/// <param name="State">How the loop is drawn.</param>
/// <param name="Yard">The yard.</param>
internal sealed record CaseFault(SupposedFault Fault, double Probability, LoopState State, Yard Yard)
{
    // Two drawings of one loop differ by less in length (m).
    private const double SameLoopMetres = 0.01;

    /// <summary>Current in metal as a share of the station's; null where none is touched.</summary>
    public double? MetalShare { get; init; }

    /// <summary>What a picture of it says it is; null for the sound loop.</summary>
    public string? Caption => State == LoopState.Sound || !FaultyReach.Changes(Fault.Kind) ? null
        : State == LoopState.Practice && Fault.PracticeParts(Yard) ? $"As practice knows it: {WireName.Of(Fault.Kind)}."
        : $"As it likely is now: {WireName.Of(Fault.Kind)}.";

    /// <summary>Takes counsel on a case.</summary>
    /// <param name="call">The call, for what is wrong.</param>
    /// <param name="path">The case file.</param>
    /// <param name="yard">The yard that is drawn; the case must be of it.</param>
    /// <param name="state">How the loop is drawn.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static CaseFault Of(Invocation call, string path, Yard yard, LoopState state, CancellationToken cancellation)
    {
        Checked<CaseFile> read = CaseFiles.Read(InputText.Read(path, call.Terminal), call.Terminal);
        ServiceCase serviceCase = read.IsGood ? read.Value.Case : throw new WrongInputException(string.Join(" | ", read.Lines()));
        if (Math.Abs(serviceCase.Yard.Loop.LengthMetres - yard.Loop.LengthMetres) > SameLoopMetres)
        {
            throw call.Wrong("--case", $"{SafeText.Quoted(path)} is of another yard, {serviceCase.Yard.Loop.LengthMetres.ToString("0.##", CultureInfo.InvariantCulture)} m of wire",
                "a case of the yard that is drawn");
        }

        Advice advice = Advisor.Advise(serviceCase, CausePriors.Default, cancellation);
        CauseProbability likeliest = advice.Causes[0];
        return new(SupposedFault.Of(serviceCase, likeliest.Cause, advice.Location, advice.ExcessOhms?.Median, advice.Density), likeliest.Probability, state, yard);
    }

    /// <summary>For people.</summary>
    public void WriteText(TextWriter text)
    {
        string where = Fault.AtMetres is { } at ? $", {PlaceWords.Describe(Yard, at)}" : "", also = Fault.OtherMetres is { } other ? $"; {PlaceWords.Describe(Yard, other)}" : "";
        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Likeliest     {WireName.Of(Fault.Kind)}, {100 * Probability:F0} %{where}{also}"));
        text.WriteLine($"Drawn         {(State, FaultyReach.Changes(Fault.Kind)) switch
        {
            (LoopState.Sound, _) => "the sound loop",
            (_, false) => "the sound loop: this fault changes no signal",
            (LoopState.Practice, _) when Fault.PracticeParts(Yard) => "as practice knows it: the metal takes the current",
            (LoopState.Practice, _) => "as it likely is now; practice tells nothing else of this fault",
            _ => "as it likely is now",
        }}");
        if (MetalShare is { } share)
        {
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"In metal      {100 * Math.Min(1, share):0.####} % of the station's current"));
        }

        if (Fault.PracticeParts(Yard))
        {
            text.WriteLine("              Here computation and practice part: practice knows the mower to cross the wire");
            text.WriteLine("              between two damaged places beside metal, in about 8 of 10 such yards.");
        }
    }

    /// <summary>For programs.</summary>
    public void WriteJson(Utf8JsonWriter json)
    {
        json.WriteStartObject("fault");
        json.WriteString("cause", WireName.Of(Fault.Kind));
        json.WriteFigure("probability", Probability);
        json.WriteFigure("atM", Fault.AtMetres);
        json.WriteFigure("otherM", Fault.OtherMetres);
        json.WriteFigure("ohms", Fault.AtMetres is null ? null : Fault.Ohms);
        json.WriteString("state", WireName.Of(State));
        json.WriteFigure("metalShare", MetalShare);
        json.WriteBoolean("practiceParts", Fault.PracticeParts(Yard));
        json.WriteEndObject();
    }
}
