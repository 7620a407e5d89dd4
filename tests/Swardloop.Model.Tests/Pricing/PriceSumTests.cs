using CsCheck;
using Swardloop.Model.Pricing;

namespace Swardloop.Model.Tests.Pricing;

public sealed class PriceSumTests
{
    private static readonly Gen<PriceSettings> Settings =
        from tax in Gen.Int[0, 5].Select(i => new[] { 0m, 7m, 8.1m, 19m, 21m, 25.5m }[i])
        from included in Gen.Bool
        from perLine in Gen.Bool
        from steps in Gen.Int[0, 6].Select(i => new[] { (0.01m, 0.01m), (0.01m, 0.05m), (0.01m, 0.1m), (0.01m, 1m), (0.05m, 0.05m), (1m, 1m), (1m, 5m) }[i])
        from half in Gen.Bool.Select(even => even ? HalfRounding.Even : HalfRounding.Away)
        select new PriceSettings { TaxPercent = tax, PricesIncludeTax = included, TaxPerLine = perLine, LineStep = steps.Item1, TotalStep = steps.Item2, Halves = half };

    private static readonly Gen<PriceLine[]> Lines =
        (from quantity in Gen.Int[0, 4000]
         from price in Gen.Int[-20000, 200000]
         select new PriceLine("line", quantity / 100m, "h", price / 1000m)).Array[0, 30];

    [Fact]
    public void Lines_add_up_to_the_total_in_every_setting() =>
        Gen.Select(Settings, Lines).Sample((settings, lines) =>
        {
            PriceSum sum = PriceSum.Of(lines, settings);
            decimal amounts = sum.Lines.Sum(line => line.Amount);
            Assert.Equal(settings.PricesIncludeTax ? amounts : amounts + sum.Tax, sum.Net + sum.Tax);
            Assert.Equal(sum.Net + sum.Tax + sum.Rounding, sum.Total);
            Assert.Equal(0, sum.Total % settings.TotalStep);
            Assert.True(Math.Abs(sum.Rounding) * 2 <= settings.TotalStep);
            Assert.All(sum.Lines, line => Assert.Equal(0, line.Amount % settings.LineStep));
            Assert.Equal(0, sum.Tax % settings.LineStep);
            if (settings.TaxPerLine)
            {
                Assert.Equal(sum.Tax, sum.Lines.Sum(line => line.Tax!.Value));
            }
        });

    // 19 % on 100.00 is 19.00 on top, and of 119.00 included.
    [Theory]
    [InlineData(false, 100, 100, 19, 119)]
    [InlineData(true, 119, 100, 19, 119)]
    public void Tax_is_on_top_or_included(bool included, int price, int net, int tax, int total)
    {
        PriceSum sum = PriceSum.Of([new("one", 1, "pc", price)], new() { TaxPercent = 19, PricesIncludeTax = included });
        Assert.Equal((net, tax, total), ((int)sum.Net, (int)sum.Tax, (int)sum.Total));
    }

    [Theory]
    [InlineData(HalfRounding.Away, 0.13)]
    [InlineData(HalfRounding.Even, 0.12)]
    public void Halves_go_where_the_setting_says(HalfRounding halves, double amount) =>
        Assert.Equal((decimal)amount, PriceSum.Of([new("one", 1, "pc", 0.125m)], new() { Halves = halves }).Lines[0].Amount);

    [Fact]
    public void Settings_that_no_sum_can_keep_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PriceSum.Of([], new() { LineStep = 0.05m, TotalStep = 0.07m }));

    [Fact]
    public void Table_is_read_back_to_the_same_sum()
    {
        PriceSum sum = PriceSum.Of([new("Joint 3, \"north\"", 0.25m, "h", 61.333m), new("=1+1", 2, "pc", 3)], new() { TaxPercent = 19, TotalStep = 0.05m });
        string[] rows = BillCsv.Of(sum).TrimEnd().Split("\r\n");
        Assert.Equal(BillCsv.Heading, rows[0]);
        Assert.StartsWith("line,\"Joint 3, \"\"north\"\"\",0.25,h,61.333,15.33,", rows[1], StringComparison.Ordinal);
        Assert.StartsWith("line,'=1+1,", rows[2], StringComparison.Ordinal);
        decimal total = rows.Skip(3).Take(3).Sum(row => decimal.Parse(row.Split(',')[5], System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal($"total,,,,,{total.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture)},,EUR", rows[6]);
    }
}
