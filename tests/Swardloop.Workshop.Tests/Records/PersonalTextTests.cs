using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Tests.Records;

public class PersonalTextTests
{
    /// <summary>What the formats do not know goes as a whole when a person is forgotten: what they learn to know must be told to that list too.</summary>
    [Fact]
    public void Members_that_stay_are_those_of_the_formats()
    {
        Assert.Equal(MembersOf(Schema("yard")), PersonalText.MembersOfYards.Order(StringComparer.Ordinal));
        Assert.Equal(MembersOf(Schema("case")["$defs"]!["observation"]!), PersonalText.MembersOfReadings.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("""{"test":"loop-resistance","ohms":5,"Quillfeather":1}""", """{"test":"loop-resistance","ohms":5}""")]
    [InlineData("""{"test":"loop-resistance","ohms":5,"extra":{"kind":"Quillfeather","telephone":1632960778}}""", """{"test":"loop-resistance","ohms":5}""")]
    [InlineData("""{"test":"loop-resistance","ohms":5,"meter":{"percent":0.8,"value":3,"note":"Quillfeather's"}}""", """{"test":"loop-resistance","ohms":5,"meter":{"percent":0.8,"value":3}}""")]
    public void Nothing_that_a_format_does_not_know_is_left_of_a_reading(string before, string after)
    {
        RecordField field = RecordFields.Of(RecordKind.Observation)["reading"];
        JsonElement value = Parsed(before), left = PersonalText.Without(field, value);
        Assert.True(JsonElement.DeepEquals(Parsed(after), left), left.GetRawText());
        Assert.NotEmpty(PersonalText.In(field, value));
        Assert.Empty(PersonalText.In(field, left));
    }

    [Fact]
    public void Guide_wires_are_called_the_same_in_yard_and_reading_and_a_replaced_name_is_not_replaced_again()
    {
        RecordField yard = RecordFields.Of(RecordKind.Yard)["file"], reading = RecordFields.Of(RecordKind.Observation)["reading"];
        JsonElement file = Parsed("""{"guides":[{"name":"to the shed"}],"loop":{"joints":[{"atM":1,"wire":"to the shed"}]}}"""), seen = Parsed("""{"test":"look","wire":"to the shed"}""");
        JsonElement renamed = PersonalText.Renamed(yard, file, _ => "forgotten 1a"), again = PersonalText.Renamed(reading, seen, _ => "forgotten 1a");
        Assert.Equal("""{"guides":[{"name":"forgotten 1a"}],"loop":{"joints":[{"atM":1,"wire":"forgotten 1a"}]}}""", renamed.GetRawText());
        Assert.Equal("""{"test":"look","wire":"forgotten 1a"}""", again.GetRawText());
        Assert.Equal(2, PersonalText.GuidesIn(yard, file).Count);
        Assert.Empty(PersonalText.GuidesIn(yard, renamed));
    }

    private static JsonNode Schema(string name)
    {
        string folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Swardloop.slnx")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The tests run inside the repository.");
        }

        return JsonNode.Parse(File.ReadAllText(Path.Combine(folder, "docs", "schemas", $"{name}.schema.json")))!;
    }

    private static SortedSet<string> MembersOf(JsonNode schema)
    {
        SortedSet<string> names = new(StringComparer.Ordinal);
        Visit(schema);
        return names;

        void Visit(JsonNode? node)
        {
            if (node is JsonObject whole)
            {
                if (whole["properties"] is JsonObject properties)
                {
                    names.UnionWith(properties.Select(property => property.Key));
                }

                foreach ((string _, JsonNode? inner) in whole)
                {
                    Visit(inner);
                }
            }
            else if (node is JsonArray list)
            {
                foreach (JsonNode? inner in list)
                {
                    Visit(inner);
                }
            }
        }
    }

    private static JsonElement Parsed(string json) => JsonSerializer.Deserialize<JsonElement>(json);
}
