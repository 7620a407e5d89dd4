using Swardloop.Workshop.Sync;

namespace Swardloop.Workshop.Tests.Sync;

public class ChangeIdsTests
{
    [Fact]
    public void Ids_grow_within_a_millisecond_and_when_the_clock_is_set_back()
    {
        DateTimeOffset noon = new(2026, 5, 14, 12, 0, 0, TimeSpan.Zero);
        ChangeIds ids = new();
        List<Guid> made = [ids.Next(noon), ids.Next(noon), ids.Next(noon.AddDays(-1)), ids.Next(noon)];

        ChangeIds afterRestart = new();
        made.ForEach(afterRestart.Saw);
        made.Add(afterRestart.Next(noon.AddDays(-2)));

        Assert.Equal(made.Order(), made);
        Assert.Equal(made.Select(id => id.ToString()).Order(StringComparer.Ordinal), made.Select(id => id.ToString()));
        Assert.All(made, id => Assert.Equal(7, id.Version));
    }
}
