using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;

namespace Swardloop.Workshop.Owners;

/// <summary>What an owner is asked, and how the answer becomes an observation.</summary>
public static class OwnerQuestions
{
    /// <summary>An owner is asked as long as the case may cost this much more by it (share): one question too many is soon answered, one
    /// visit too many is not soon paid. Common practice, no source.</summary>
    public const double WorthAsking = 1.05;

    /// <summary>Most questions of one link: more patience than that no owner has. What the workshop itself asks for is asked beyond it. Common
    /// practice, no source.</summary>
    public const int MostQuestions = 6;

    /// <summary>What an owner is asked once at most: nobody is sent round the garden twice.</summary>
    private static readonly StepKind[] OnceOnly = [StepKind.Look];

    /// <summary>The field of the form for anything more, for example where.</summary>
    public const string Note = "note";

    /// <summary>What is wrong with a number that can hardly be, and how the owner says that it is right all the same.</summary>
    public const string Doubtful = "can hardly be", SureSuffix = "-sure";

    /// <summary>What follows a number's name in the form: its unit (Ω, kΩ, MΩ), and whether the meter showed that it was too much (<c>yes</c>).</summary>
    public const string UnitSuffix = "-unit", OverSuffix = "-over";

    /// <summary>What is wrong with a number that reads well: a 1 alone, which many meters show for over-range; a number and over-range at once;
    /// less than the leads alone.</summary>
    public const string LoneOne = "is a 1 alone", NumberAndOverRange = "is a number, and over-range too", LessThanLeads = "is less than the leads alone";

    /// <summary>Two readings of one meter of ten euros on its lowest range may differ by this much (Ω): three digits of 0.1 Ω each. Common
    /// practice, no source.</summary>
    private const double MeterDoubtOhms = 0.6;

    /// <summary>The step to ask for now; null when there is nothing more that an owner could find out.</summary>
    /// <param name="advice">What the engine makes of the case.</param>
    /// <param name="ask">Steps that the workshop wants asked first, in order.</param>
    /// <param name="cannot">Steps that the owner said he cannot do.</param>
    /// <param name="answered">Steps that the owner answered since the workshop asked.</param>
    public static Step? Next(
        Advice advice, IReadOnlyList<StepKind> ask, IReadOnlyCollection<StepKind> cannot, IReadOnlyCollection<StepKind> answered)
    {
        if (advice.Finished)
        {
            return null;
        }

        foreach (StepKind kind in ask)
        {
            if (StepCatalogue.Of(kind).OwnerMay && !cannot.Contains(kind) && !answered.Contains(kind))
            {
                return advice.Next.FirstOrDefault(advised => advised.Step.Kind == kind && advised.Step.By == Person.Owner)?.Step
                    ?? Plain(kind);
            }
        }

        if (advice.Next.Count == 0 || answered.Count + cannot.Count >= MostQuestions)
        {
            return null;
        }

        double best = advice.Next[0].ExpectedCostToFinish;
        return advice.Next
            .Where(advised => advised.Step.By == Person.Owner && !cannot.Contains(advised.Step.Kind)
                && !(OnceOnly.Contains(advised.Step.Kind) && answered.Contains(advised.Step.Kind))
                && advised.ExpectedCostToFinish <= WorthAsking * best)
            .FirstOrDefault()?.Step;
    }

    /// <summary>The other steps of an owner that fail for the same reason: without the tool, or with a mower that does not start.</summary>
    public static IReadOnlyList<StepKind> AlsoHindered(StepKind kind, OwnerHindrance hindrance) => hindrance switch
    {
        OwnerHindrance.NoTool => [.. StepCatalogue.All.Where(other => other.OwnerMay && (other.Needs & StepCatalogue.Of(kind).Needs) != 0).Select(other => other.Kind)],
        OwnerHindrance.DoesNotStart => [StepKind.MowerStart, StepKind.MowerReach, StepKind.FollowWire, StepKind.WireCrossing],
        _ => [],
    };

    /// <summary>A hindrance in words.</summary>
    public static OwnerText WordsOf(OwnerHindrance hindrance) => hindrance switch
    {
        OwnerHindrance.NoTool => OwnerText.NoTool,
        OwnerHindrance.DoesNotStart => OwnerText.DoesNotStart,
        OwnerHindrance.DoesNotDare => OwnerText.DoesNotDare,
        _ => OwnerText.OtherReason,
    };

    /// <summary>What the form of a question asks for: the outcomes, and of the parameters those that the step leaves open and an owner can know.</summary>
    public static IReadOnlyList<StepField> Asked(Step step)
    {
        StepForm form = StepForm.Of(step.Kind);
        return
        [
            .. form.Parameters.Where(field => field.Type is StepFieldType.Number or StepFieldType.Flag && !IsSet(step, field.Name)),
            .. form.Outcomes.Where(field => field.Name != "found"),
        ];
    }

    /// <summary>Turns what an owner filled in into an observation as case files hold it.</summary>
    /// <param name="step">The question.</param>
    /// <param name="given">What was filled in, by field name; null where nothing was. A number may have a comma; <c>over-range</c> may stand
    /// for a number where the field allows it. See <see cref="UnitSuffix"/>.</param>
    /// <param name="at">When it arrived.</param>
    /// <param name="yard">The yard.</param>
    /// <param name="problems">Takes what is wrong, each at its field.</param>
    /// <returns>Null, with problems noted, when something is wrong.</returns>
    public static JsonObject? Answer(Step step, Func<string, string?> given, DateTimeOffset at, Yard yard, ProblemList problems)
    {
        JsonObject reading = new() { [StepCatalogue.Of(step.Kind).IsRepair ? "repair" : "test"] = WireName.Of(step.Kind) };
        Set("atM", step.AtMetres);
        Set("fromM", step.FromMetres);
        Set("toM", step.ToMetres);
        if (step.Place is { } place)
        {
            reading["place"] = WireName.Of(place);
        }

        if (step.NearMetal is { } nearMetal)
        {
            reading["nearMetal"] = nearMetal;
        }

        if (step.Guide is { } guide)
        {
            reading["guide"] = guide;
        }

        int before = problems.Count;
        foreach (StepField field in Asked(step))
        {
            string text = given(field.Name)?.Trim() ?? "";
            if (field.MayBeOverRange && (given(field.Name + OverSuffix) == "yes" || TypedReading.IsOverRange(text)))
            {
                if (!TypedReading.IsLoneOne(text) && TypedReading.TryRead(text, field.Unit, out _))
                {
                    problems.Add(field.Name, NumberAndOverRange, Allowed(field));
                }

                reading[field.Name] = "over-range";
                continue;
            }

            if (text.Length == 0)
            {
                if (field.Required)
                {
                    problems.Add(field.Name, "missing", Allowed(field));
                }

                continue;
            }

            switch (field.Type)
            {
                case StepFieldType.Number when field.MayBeOverRange && TypedReading.IsLoneOne(text):
                    problems.Add(field.Name, LoneOne, Allowed(field));
                    break;
                case StepFieldType.Number when TypedReading.TryRead(WithUnit(text, given(field.Name + UnitSuffix)), field.Unit, out double number)
                    && number >= (field.Least ?? double.MinValue) && number <= (field.Most ?? double.MaxValue):
                    if (ReadingDoubt.Of(step.Kind, field.Name, number, yard) is not null && given(field.Name + SureSuffix) != "yes")
                    {
                        problems.Add(field.Name, Doubtful, Allowed(field));
                    }

                    reading[field.Name] = number;
                    break;
                case StepFieldType.Flag when text is "yes" or "no":
                    reading[field.Name] = text == "yes";
                    break;
                case StepFieldType.Word when field.Words.Contains(text):
                    reading[field.Name] = text;
                    break;
                default:
                    problems.Add(field.Name, $"got \"{text}\"", Allowed(field));
                    break;
            }
        }

        foreach (string name in (string[])["ohms", "ohmsA", "ohmsB"])
        {
            if (reading["leadOhms"] is JsonValue leads && reading[name] is JsonValue shown && shown.TryGetValue(out double ohms) && ohms + MeterDoubtOhms < (double)leads)
            {
                problems.Add(name, LessThanLeads, "as much as the leads, or more");
            }
        }

        if (problems.Count > before)
        {
            return null;
        }

        if (given(Note)?.Trim() is { Length: > 0 } note)
        {
            reading[Note] = note;
        }

        reading["by"] = "owner";
        reading["at"] = at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", System.Globalization.CultureInfo.InvariantCulture);
        using JsonDocument document = JsonDocument.Parse(reading.ToJsonString());
        return ObservationJson.Read(document.RootElement, "", yard.Loop.LengthMetres, problems) is null ? null : reading;

        void Set(string name, double? metres)
        {
            if (metres is { } value)
            {
                reading[name] = value;
            }
        }
    }

    private static string Allowed(StepField field) => field.Type switch
    {
        StepFieldType.Number => new NumberRange(field.Least ?? 0, field.Most ?? double.MaxValue, field.Unit ?? "").ToString(),
        StepFieldType.Flag => "yes, no",
        _ => string.Join(", ", field.Words),
    };

    // A unit typed behind the number counts more than the one chosen beside it.
    private static string WithUnit(string text, string? unit) => char.IsLetter(text[^1]) ? text : text + unit;

    private static bool IsSet(Step step, string name) => name switch
    {
        "nearMetal" => step.NearMetal is not null,
        "testVolts" => step.TestVolts is not null,
        _ => false,
    };

    /// <summary>A step asked for by the workshop and not by the engine: where it has a choice of place, the middle of the lawn tells most.</summary>
    private static Step Plain(StepKind kind) => new(kind)
    {
        By = Person.Owner,
        Place = kind == StepKind.MowerStart ? StartPlace.MidLawn : null,
    };
}
