using System.Numerics;
using Swardloop.Core.Circuits;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Circuits;

/// <summary>A square loop of 20 m, counter-clockwise from its south side, and a fence 0.3 m outside its east side: what a leaking pair beside metal does
/// to the field there. The same network and the same field sum as everywhere, nothing added by hand.</summary>
public sealed class FenceTests
{
    private const double Depth = 0.05, SensorHeight = 0.07, AtSouth = 16, AtNorth = 24;

    private static readonly WirePath Loop = new([new(10, 0), new(20, 0), new(20, 20), new(0, 20), new(0, 0), new(10, 0)]);

    private static readonly MetalObject Fence = new("fence", new WirePath([new(20.3, 4), new(20.3, 16)]), 40);

    private static readonly WireLine Line = new(80, 0.02, leakSiemensPerMetre: 0);

    private static readonly DriveSetup Station = new DriveSetup.Station(1, 0, 10_000);

    [Fact]
    public void Healthy_loop_carries_one_current_everywhere_and_none_in_the_fence()
    {
        LoopCurrents currents = Currents();

        Assert.Equal(0, currents.MetalShare);
        Assert.Equal(5, currents.Segments.Count);
        Assert.All(currents.Segments, segment => Assert.InRange((segment.CurrentAmperes - currents.DriveAmperes).Magnitude, 0, 1e-14));
        Assert.Equal(1 / 1.6, currents.DriveAmperes.Real, 1e-12);
    }

    // Bare wire touching the fence at 6 and 14 m north: 8 m of wire, 0.16 Ω, against two contacts of 1 mΩ: 0.16/0.162 of the current takes the fence.
    [Fact]
    public void Fence_touched_twice_takes_the_current_and_the_field_between_wire_and_fence_turns_round()
    {
        LoopCurrents touched = Currents(new WireFault.MetalContact(AtSouth, 0, 1e-3), new WireFault.MetalContact(AtNorth, 0, 1e-3));
        PlanPoint between = new(20.15, 10);

        Assert.Equal(0.16 / 0.162, touched.MetalShare!.Value, 1e-3); // the fence's 40 Ω to earth take no current: there is one way in and the same way out
        double healthy = FieldAt(Currents(), between), now = FieldAt(touched, between);
        Assert.True(healthy < 0, "outside the wire the field points down");
        Assert.True(now > 0, "inside the fence that now carries the current it points up");
        Assert.InRange(FieldAt(touched, new(20.6, 10)), double.NegativeInfinity, -0.1 * Math.Abs(healthy));
    }

    // Damaged insulation a hand's breadth from the fence, through soil: some kilohms each (references C2). Physics gives the metal a share of
    // 0.16 Ω against 4 kΩ and the mower's field does not change. Practice tells otherwise (references P8); the figure is published, not tuned.
    [Fact]
    public void Two_damaged_places_in_soil_put_hardly_anything_into_the_fence()
    {
        LoopCurrents leaking = Currents(new WireFault.MetalContact(AtSouth, 0, 2000), new WireFault.MetalContact(AtNorth, 0, 2000));
        PlanPoint between = new(20.15, 10);

        Assert.Equal(0.16 / 4000, leaking.MetalShare!.Value, 0.01 * 0.16 / 4000);
        Assert.Equal(1, FieldAt(leaking, between) / FieldAt(Currents(), between), 1e-3);
    }

    // One contact and a leak elsewhere: the current leaves the fence along its whole length and comes back through the soil.
    [Fact]
    public void Current_that_the_fence_loses_to_the_soil_dies_out_along_it()
    {
        LoopCurrents currents = Currents(new WireFault.MetalContact(AtSouth, 0, 1), new WireFault.Leak(70, 1));
        Complex[] fence = [.. currents.Segments.Where(segment => segment.StartMetres.Z == 0).Select(segment => segment.CurrentAmperes)];
        Complex lost = currents.Wire[0].Amperes - currents.Wire[1].Amperes;

        Assert.Equal(lost.Magnitude / currents.DriveAmperes.Magnitude, currents.MetalShare!.Value, 1e-9);
        Assert.InRange(fence[0].Magnitude, 0, 0.02 * lost.Magnitude);
        Assert.InRange(fence[^1].Magnitude, 0, 0.02 * lost.Magnitude);

        // The contact is 2 m from the fence's south end: a sixth of the current goes that way, the rest north.
        Assert.Equal(5.0 / 6, fence.Max(current => current.Magnitude) / lost.Magnitude, 0.02);
        Assert.Equal(1.0 / 6, fence.Where(current => current.Real * lost.Real < 0).Max(current => current.Magnitude) / lost.Magnitude, 0.02);
    }

    private static LoopCurrents Currents(params WireFault[] faults) =>
        new LoopNetwork(Line, faults, [Fence]).CurrentsAlong(Station, Loop, Depth) ?? throw new InvalidOperationException("no currents");

    // Vertical field (A/m), the part in phase with the drive.
    private static double FieldAt(LoopCurrents currents, PlanPoint place) =>
        new FieldSource(currents.Segments, SensorHeight).VerticalFieldAmperesPerMetre(place).Real;
}
