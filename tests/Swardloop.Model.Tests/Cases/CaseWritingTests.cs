using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Cases;

public sealed class CaseWritingTests
{
    private static CaseFile Full() => CaseReadingTests.Read(CaseReadingTests.Full).Value!;

    [Fact]
    public void What_is_written_reads_as_the_same_case()
    {
        CaseFile created = CaseFile.Create(Full().Case, "quince.yard.json");

        CaseFile back = CaseReadingTests.Read(Encoding.UTF8.GetString(created.ToUtf8())).Value!;

        Assert.Equal(Full().Case.Observations, back.Case.Observations);
        Assert.Equal(Full().Case.Rates, back.Case.Rates);
        Assert.Equal(Full().Case.Can, back.Case.Can);
        Assert.Equal((Full().Case.Complaint, Full().Case.OnSite, Full().YardPath), (back.Case.Complaint, back.Case.OnSite, back.YardPath));
    }

    [Fact]
    public void Every_observation_is_written_as_the_contract_has_it()
    {
        JsonArray asGiven = JsonNode.Parse(CaseReadingTests.Full)!["observations"]!.AsArray();

        JsonArray written = [.. Full().Case.Observations.Select(observation => (JsonNode)ObservationJson.ToJson(observation))];

        for (int i = 0; i < asGiven.Count; i++)
        {
            // Text for text: 12.3 nF goes through farads and comes back as 12.3.
            Assert.True(JsonNode.DeepEquals(asGiven[i], written[i]), $"{asGiven[i]} is written as {written[i]}");
        }
    }

    [Fact]
    public void Unknown_properties_survive_a_change()
    {
        string text = """
            { "format": "swardloop-case/1", "yard": "quince.yard.json", "ticket": 17, "rates": { "currency": "EUR", "list": "2026" },
              "observations": [ { "test": "station-lamp", "value": "normal", "photo": "lamp.jpg" } ] }
            """;
        CaseFile read = CaseReadingTests.Read(text).Value!;

        CaseFile changed = read.With(read.Case with
        {
            OnSite = true,
            Rates = read.Case.Rates with { LabourPerHour = 80 },
            Observations = [.. read.Case.Observations, new Observation.OutletCheck(true)],
        });

        JsonNode json = JsonNode.Parse(changed.ToUtf8())!;
        Assert.Equal(17, (int)json["ticket"]!);
        Assert.Equal("2026", (string)json["rates"]!["list"]!);
        Assert.Equal("lamp.jpg", (string)json["observations"]![0]!["photo"]!);
        CaseFile back = CaseReadingTests.Read(json.ToJsonString()).Value!;
        Assert.Equal(changed.Case.Observations, back.Case.Observations);
        Assert.Equal((true, 80), (back.Case.OnSite, back.Case.Rates.LabourPerHour));
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(text), JsonNode.Parse(read.ToUtf8())), "the file as it was read has changed");
    }

    [Fact]
    public void A_correction_and_a_withdrawal_are_written()
    {
        CaseFile full = Full();
        List<Observation> observations = [.. full.Case.Observations.Take(3)];
        observations[1] = new Observation.SupplyVoltage(3, 28);

        CaseFile changed = full.With(full.Case with { Observations = observations });

        Assert.Equal(observations, CaseReadingTests.Read(Encoding.UTF8.GetString(changed.ToUtf8())).Value!.Case.Observations);
    }

    [Fact]
    public void A_case_with_its_yard_inside_stands_alone()
    {
        YardFile yard = YardFile.Read(Encoding.UTF8.GetBytes(CaseReadingTests.Yard), "y").Value!;
        CaseFile created = CaseFile.Create(new ServiceCase { Yard = yard.Yard }, yard);

        CaseFile back = CaseFile.Read(created.ToUtf8(), "-", _ => null).Value!;

        Assert.Equal("Quince Cottage", back.Case.Yard.Name);
        Assert.Equal(yard.Yard.Loop.Joints, back.Case.Yard.Loop.Joints);
    }
}
