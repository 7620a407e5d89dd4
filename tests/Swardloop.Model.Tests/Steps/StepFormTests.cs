using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;

namespace Swardloop.Model.Tests.Steps;

/// <summary>What the catalogue says an observation holds is what the case file's reader takes.</summary>
public sealed class StepFormTests
{
    private const double WireMetres = 180;

    public static TheoryData<StepKind> Kinds => [.. Enum.GetValues<StepKind>()];

    private static IEnumerable<StepField> Fields(StepKind kind) => [.. StepForm.Of(kind).Parameters, .. StepForm.Of(kind).Outcomes];

    private static JsonNode Example(StepField field, int choice) => field.Type switch
    {
        StepFieldType.Number => field.Least == 0 && field.Meaning.Contains("above 0", StringComparison.Ordinal) ? field.Most!.Value : choice == 0 ? field.Least!.Value : field.Most!.Value,
        StepFieldType.Place => field.Name == "fromM" ? 0 : WireMetres,
        StepFieldType.Word => field.Words[choice % field.Words.Count],
        StepFieldType.Flag => choice == 0,
        StepFieldType.Meter => new JsonObject { ["percent"] = 1, ["digits"] = 2, ["resolutionOhms"] = 0.1 },
        StepFieldType.Text => "words",
        _ => throw new ArgumentOutOfRangeException(nameof(field)),
    };

    private static JsonObject Observation(StepKind kind, int choice, bool optionalToo = true)
    {
        JsonObject observation = new() { [StepCatalogue.Of(kind).IsRepair ? "repair" : "test"] = WireName.Of(kind) };
        foreach (StepField field in Fields(kind).Where(field => optionalToo || field.Required))
        {
            observation[field.Name] = Example(field, choice);
        }

        return observation;
    }

    private static (Observation? Read, string Problems) Read(JsonObject observation)
    {
        ProblemList problems = new("test");
        using JsonDocument document = JsonDocument.Parse(observation.ToJsonString());
        Observation? read = ObservationJson.Read(document.RootElement, "", WireMetres, problems);
        return (read, string.Join("; ", problems.Kept));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Everything_the_catalogue_allows_is_read(StepKind kind)
    {
        for (int choice = 0; choice < 4; choice++)
        {
            (Observation? read, string problems) = Read(Observation(kind, choice));
            Assert.True(read is not null, problems);
            Assert.Equal(kind, read.Step);
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_is_not_required_may_be_left_out(StepKind kind)
    {
        // Choice 2 is the echo of kind "none", the one that has no delay.
        (Observation? read, string problems) = Read(Observation(kind, choice: 2, optionalToo: false));
        Assert.True(read is not null, problems);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_is_required_may_not_be_left_out(StepKind kind)
    {
        foreach (StepField field in Fields(kind).Where(field => field.Required))
        {
            JsonObject observation = Observation(kind, 0);
            observation.Remove(field.Name);
            (Observation? read, string problems) = Read(observation);
            Assert.True(read is null, $"{kind} was read without {field.Name}");
            Assert.Contains(field.Name, problems, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_the_catalogue_does_not_allow_is_refused(StepKind kind)
    {
        foreach (StepField field in Fields(kind).Where(field => field.Type is not StepFieldType.Text and not StepFieldType.Meter))
        {
            JsonNode[] wrong = field.Type switch
            {
                StepFieldType.Number => [field.Least!.Value - 0.1, field.Most!.Value * 1.001, "much"],
                StepFieldType.Place => [-0.1, WireMetres + 1],
                _ => ["certainly not"],
            };
            foreach (JsonNode value in wrong)
            {
                JsonObject observation = Observation(kind, 0);
                observation[field.Name] = value;
                (Observation? read, string problems) = Read(observation);
                Assert.True(read is null, $"{kind} was read with {field.Name} = {value}");
                Assert.Contains(field.Name, problems, StringComparison.Ordinal);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Over_range_is_read_where_the_catalogue_says_so(StepKind kind)
    {
        foreach (StepField field in Fields(kind).Where(field => field.Type == StepFieldType.Number))
        {
            JsonObject observation = Observation(kind, 0);
            observation[field.Name] = "over-range";
            Assert.Equal(field.MayBeOverRange, Read(observation).Read is not null);
        }
    }
}
