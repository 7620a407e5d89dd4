using Swardloop.Server.BenchList;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.BenchList;

public sealed class BenchOrderTests
{
    private static readonly DateOnly Today = new(2026, 5, 14);
    private static readonly DateTimeOffset Opened = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Promises_due_come_first_then_owners_answers_then_who_waits_longest()
    {
        BenchEntry[] expected =
        [
            Entry("overdue", promised: -3), Entry("promised today, waits long", promised: 0, newsDay: 1), Entry("promised today", promised: 0, newsDay: 9),
            Entry("answered", answers: 2, newsDay: 5), Entry("answered later", answers: 1, newsDay: 6, promised: 4),
            Entry("never heard of"), Entry("promised tomorrow", promised: 1, newsDay: 3), Entry("heard of yesterday", newsDay: 12),
        ];
        Random shuffle = new(7);
        for (int i = 0; i < 20; i++)
        {
            BenchEntry[] mixed = [.. expected];
            shuffle.Shuffle(mixed);
            Assert.Equal(expected.Select(entry => entry.Complaint), BenchOrder.Sort(mixed, Today).Select(entry => entry.Complaint));
        }
    }

    private static BenchEntry Entry(string complaint, int? promised = null, int answers = 0, int? newsDay = null) => new(
        Guid.CreateVersion7(), Guid.CreateVersion7(), "Thimble Court", null, complaint, "open", Opened, promised is { } days ? Today.AddDays(days) : null,
        newsDay is { } day ? Opened.AddDays(day) : null, answers, null, null, null, null, null, false);
}
