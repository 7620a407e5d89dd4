using System.Text.Json;
using CsCheck;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Tests.Records;

public class RecordStateTests
{
    private static readonly Guid Yard = Guid.CreateVersion7();

    [Fact]
    public void Change_that_saw_the_value_replaces_it()
    {
        Change first = Name("Otter Bank"), second = Name("Otter Reach", first);

        RecordState yard = Fold(first, second);

        Assert.Equal("Otter Reach", yard.Text("name"));
        Assert.Empty(yard.Conflicts);
    }

    [Fact]
    public void Changes_that_did_not_know_of_each_other_both_stay_until_one_has_seen_both()
    {
        Change first = Name("Otter Bank"), desk = Name("Otter Reach", first), garden = Name("Otter Bend", first);

        RecordState inConflict = Fold(first, desk, garden);
        Change settled = Name("Otter Bend", desk, garden);

        Assert.Equal(["name"], inConflict.Conflicts);
        Assert.Equal(["Otter Bend", "Otter Reach"], inConflict["name"].Values.Select(value => value.Value.GetString()).Order());
        Assert.Empty(inConflict.With(settled, "desk").Conflicts);
        Assert.Equal("Otter Bend", inConflict.With(settled, "desk").Text("name"));
    }

    /// <summary>Any history of changes, each having seen any of the earlier ones, in any order of arrival: the same record.</summary>
    [Fact]
    public void Order_of_arrival_does_not_matter() =>
        Gen.Int[0, 1 << 12].Array[1, 12].SelectMany(seen => Gen.Shuffle(Enumerable.Range(0, seen.Length).ToArray()), (seen, order) => (seen, order)).Sample((seen, order) =>
        {
            Change[] history = new Change[seen.Length];
            for (int i = 0; i < history.Length; i++)
            {
                history[i] = Name($"name {i}", [.. Enumerable.Range(0, i).Where(j => (seen[i] >> j & 1) != 0).Select(j => history[j])]);
            }

            FieldState straight = Fold(history)["name"], shuffled = Fold([.. order.Select(i => history[i])])["name"];
            HashSet<Guid> replaced = [.. history.SelectMany(change => change.SeenIn("name"))];
            IEnumerable<Guid> left = history.Select(change => change.Id).Where(id => !replaced.Contains(id)).OrderDescending();

            Assert.Equal(left, straight.Ids);
            Assert.Equal(left, shuffled.Ids);
        });

    [Fact]
    public void State_survives_its_own_json()
    {
        RecordState state = Fold(Name("Otter Bank"), Name("Otter Reach"));

        string json = JsonSerializer.Serialize(state, WorkshopJson.Default.RecordState);
        RecordState back = JsonSerializer.Deserialize(json, WorkshopJson.Default.RecordState)!;

        Assert.Equal(json, JsonSerializer.Serialize(back, WorkshopJson.Default.RecordState));
        Assert.Equal(2, back["name"].Values.Count);
    }

    private static RecordState Fold(params Change[] changes) =>
        changes.Aggregate(RecordState.New(Yard, RecordKind.Yard), (state, change) => state.With(change, "desk"));

    private static Change Name(string name, params Change[] seen) => new(
        Guid.CreateVersion7(), RecordKind.Yard, Yard,
        new Dictionary<string, JsonElement> { ["name"] = JsonSerializer.SerializeToElement(name) },
        new Dictionary<string, IReadOnlyList<Guid>> { ["name"] = [.. seen.Select(change => change.Id)] },
        DateTimeOffset.UnixEpoch);
}
