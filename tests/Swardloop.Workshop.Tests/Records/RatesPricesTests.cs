using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Model.Pricing;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Tests.Records;

/// <summary>Every setting of tax and rounding that the app offers: the rows add up to what is paid.</summary>
public sealed class RatesPricesTests
{
    [Fact]
    public void Rows_add_up_to_what_is_paid_in_every_setting_that_can_be_chosen()
    {
        int settings = 0;
        foreach (string? line in (string?[])[null, .. RatesPrices.LineSteps])
        {
            foreach (string? total in (string?[])[null, .. RatesPrices.TotalSteps])
            {
                foreach (string halves in RatesPrices.HalfWords)
                {
                    for (int flags = 0; flags < 4; flags++)
                    {
                        PriceSettings read = RatesPrices.Of(Rates(line, total, halves, (flags & 1) != 0, (flags & 2) != 0), "EUR");
                        PriceSum sum = PriceSum.Of([new("Labour", 1.75m, "h", 63.33m), new("Wire", 12.4m, "m", 0.325m), new("Joint", 3, "", 2.005m), new("Travel", 1, "", 45.5m)], read);
                        Assert.Equal(sum.Total, sum.Net + sum.Tax + sum.Rounding);
                        Assert.Equal(0, sum.Total % read.TotalStep);
                        Assert.All(sum.Lines, one => Assert.Equal(0, one.Amount % read.LineStep));
                        settings++;
                    }
                }
            }
        }

        Assert.Equal(3 * 6 * 2 * 4, settings);
    }

    [Fact]
    public void What_is_not_set_is_to_the_cent_and_without_tax() => Assert.Equal(new PriceSettings { Currency = "CHF" }, RatesPrices.Of(null, "CHF"));

    private static RecordState Rates(string? line, string? total, string halves, bool includes, bool perLine)
    {
        JsonObject set = new() { ["taxPercent"] = 19, ["roundHalves"] = halves, ["pricesIncludeTax"] = includes, ["taxPerLine"] = perLine };
        foreach ((string field, string? word) in ((string, string?)[])[("roundLines", line), ("roundTotal", total)])
        {
            if (word is not null)
            {
                set[field] = word;
            }
        }

        using JsonDocument document = JsonDocument.Parse(set.ToJsonString());
        return RecordState.New(Ids.Rates, RecordKind.Rates).With(
            new(Guid.CreateVersion7(), RecordKind.Rates, Ids.Rates, document.RootElement.EnumerateObject().ToDictionary(field => field.Name, field => field.Value.Clone()),
                new Dictionary<string, IReadOnlyList<Guid>>(), DateTimeOffset.UnixEpoch), "Robin");
    }
}
