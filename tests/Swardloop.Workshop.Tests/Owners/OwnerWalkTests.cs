using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;
using Swardloop.Workshop.Owners;

namespace Swardloop.Workshop.Tests.Owners;

public class OwnerWalkTests
{
    private static readonly Step Look = new(StepKind.Look) { FromMetres = 24.5, ToMetres = 25.5, By = Person.Owner };

    // A loop of 40 m, likely at two joints beside the one advised, a little everywhere.
    private static readonly DensityBin[] Density =
    [
        new(0, 9.8, 0.04), new(9.8, 10.2, 0.2), new(10.2, 24.8, 0.06), new(24.8, 25.2, 0.4), new(25.2, 33.8, 0.04), new(33.8, 34, 0.06), new(34, 34.2, 0.16), new(34.2, 40, 0.04),
    ];

    [Fact]
    public void Walk_passes_all_that_is_likely_in_the_order_of_the_wire() =>
        Assert.Equal([(9.4, 10.6), (24.5, 25.5), (33.4, 34.6)], OwnerWalk.Stretches(Look, Density, Case()));

    [Fact]
    public void What_was_looked_at_is_not_walked_again() => Assert.Equal(
        [(24.5, 25.5), (33.4, 34.6)], OwnerWalk.Stretches(Look, Density, Case(new Observation.Look(8, 12, Damage: false))));

    [Fact]
    public void Long_or_unlikely_stretches_are_no_part_of_it()
    {
        Assert.Equal([(24.5, 25.5)], OwnerWalk.Stretches(Look, [new(0, 20, 0.3), new(20, 40, 0.7)], Case()));
        Assert.Equal([(24.5, 25.5)], OwnerWalk.Stretches(Look, [new(0, 10, 0.01), new(10, 10.1, 0.04), new(10.1, 40, 0.1)], Case()));
        Assert.Equal([(24.5, 25.5)], OwnerWalk.Stretches(Look, [], Case()));
        Assert.Equal([(24.5, 25.5)], OwnerWalk.Stretches(Look, [new(0, 0.2, 0.4), new(0.2, 79.8, 0.2), new(79.8, 80, 0.4)], Case())); // the terminals
        Assert.Empty(OwnerWalk.Stretches(new(StepKind.LoopResistance), Density, Case()));
        Assert.Empty(OwnerWalk.Stretches(Look with { Wire = "G1" }, Density, Case()));
    }

    [Fact]
    public void Answers_to_the_stretches_of_one_sending_have_ids_of_their_own_that_are_the_same_when_it_is_sent_again()
    {
        Guid once = Guid.CreateVersion7();
        Guid[] ids = [.. Enumerable.Range(0, OwnerWalk.MostStretches).Select(i => OwnerWalk.IdOf(once, i))];
        Assert.Equal(once, ids[0]);
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(ids, id => Assert.Equal(7, id.Version));
    }

    private static ServiceCase Case(params Observation[] observations) => new() { Yard = SquareYard(), Observations = observations };

    private static Yard SquareYard() => YardFile.Read(
        """
        { "format": "swardloop-yard/1", "name": "Square", "loop": {
          "path": [[10,0],[20,0],[20,20],[0,20],[0,0],[10,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
        """u8.ToArray(), "square").Value!.Yard;
}
