using Swardloop.Client.Garden;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Client.Tests.Garden;

public sealed class VisitTicksTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 9, 0, 0, TimeSpan.Zero);

    private static VisitTicks Ticked()
    {
        VisitTicks visit = new();
        visit.Take([.. Enum.GetValues<Caution>().Select(caution => new CautionTick(caution, Now, "Wren"))]);
        return visit;
    }

    [Fact]
    public void Only_what_holds_for_a_visit_is_kept() =>
        Assert.All(Enum.GetValues<Caution>(), caution => Assert.Equal(StepCautions.HoldsForVisit(caution), Ticked().Holding(caution, Now.AddHours(1), "Wren") is not null));

    [Fact]
    public void Next_day_and_another_person_are_asked_again()
    {
        Assert.Null(Ticked().Holding(Caution.NoThunder, Now.AddDays(1), "Wren"));
        Assert.Null(Ticked().Holding(Caution.NoThunder, Now, "Robin"));
    }

    [Fact]
    public void Mower_that_was_run_is_isolated_again_and_the_station_unplugged()
    {
        VisitTicks visit = Ticked();
        visit.After(StepKind.MowerStart);
        Assert.Null(visit.Holding(Caution.MowerIsolated, Now, "Wren"));
        Assert.Null(visit.Holding(Caution.StationUnplugged, Now, "Wren"));
        Assert.NotNull(visit.Holding(Caution.LocateServices, Now, "Wren"));
        Assert.False(visit.IsUnopened(Now, "Wren"));
        Assert.True(visit.IsUnopened(Now, "Robin"));
    }

    [Fact]
    public void Station_stays_unplugged_from_one_reading_to_the_next_until_a_step_needs_it_on()
    {
        VisitTicks visit = Ticked();
        visit.After(StepKind.LoopResistance);
        visit.After(StepKind.SplitResistance);
        Assert.NotNull(visit.Holding(Caution.StationUnplugged, Now, "Wren"));
        visit.After(StepKind.StationLamp);
        Assert.Null(visit.Holding(Caution.StationUnplugged, Now, "Wren"));
        Assert.NotNull(visit.Holding(Caution.MowerIsolated, Now, "Wren"));
    }

    [Fact]
    public void Kept_text_reads_back_and_a_torn_one_asks_again()
    {
        string text = Ticked().ToText();
        Assert.Equal(text, VisitTicks.Read(text).ToText());
        Assert.Equal(new CautionTick(Caution.NoThunder, Now, "Wren"), VisitTicks.Read(text).Holding(Caution.NoThunder, Now, "Wren"));
        Assert.All(new[] { null, "", "{", "[1]", """[{"caution":"no-thunder","at":"yesterday"}]""" }, torn => Assert.Equal("[]", VisitTicks.Read(torn).ToText()));
    }

    [Fact]
    public void Leads_are_known_for_the_rest_of_the_visit_to_whoever_measured_them()
    {
        VisitTicks visit = Ticked();
        visit.TakeLeads(0.3, Now, "Wren");
        VisitTicks again = VisitTicks.Read(visit.ToText());
        Assert.Equal(0.3, again.LeadOhms(Now.AddHours(2), "Wren"));
        Assert.NotNull(again.Holding(Caution.NoThunder, Now, "Wren"));
        Assert.Null(again.LeadOhms(Now, "Robin"));
        Assert.Null(again.LeadOhms(Now.AddDays(1), "Wren"));
    }
}
