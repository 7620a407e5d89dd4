using System.Runtime.InteropServices;
using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis.Drawn;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing;

/// <summary>All that a picture of the signal needs: the field per ampere on a grid, and closed forms for every resistance of the loop. Computed
/// once for a yard; resistance then only moves a threshold. Immutable.</summary>
public sealed class SignalMap
{
    private const int FormatNumber = 2, Shares = 1000;

    private readonly float[] _strength, _quantiles;

    private SignalMap(PlanGrid grid, float[] strength, float[] quantiles, WeakestPlace weakest, SignalBudget signal, double expectedOhms) =>
        (Grid, _strength, _quantiles, Weakest, Signal, ExpectedOhms) = (grid, strength, quantiles, weakest, signal, expectedOhms);

    /// <summary>Where the strengths lie; a little wider than the lawn.</summary>
    public PlanGrid Grid { get; }

    /// <summary>|g| that counts (1/m), see <see cref="LoopReach.StrengthAt(PlanPoint)"/>, row by row from the south, each from the west.</summary>
    public ReadOnlySpan<float> Strength => _strength;

    /// <summary>The same as bytes, in this machine's order, for the canvas.</summary>
    public byte[] StrengthBytes => MemoryMarshal.AsBytes<float>(_strength).ToArray();

    /// <summary>The weakest place of the lawn.</summary>
    public WeakestPlace Weakest { get; }

    /// <summary>What turns resistance into the field needed.</summary>
    public SignalBudget Signal { get; }

    /// <summary>What the healthy loop measures (Ω).</summary>
    public double ExpectedOhms { get; }

    /// <summary>Current in metal as a share of the station's; null for a sound loop, or a fault that touches no metal.</summary>
    public double? MetalShare { get; private init; }

    /// <summary>Extra ohms until the weakest place falls silent (Ω); negative when it already is; null when no resistance would do.</summary>
    public double? SpareAtWeakestOhms => Signal.OhmsToSpare(Weakest.FieldPerAmpere, ExpectedOhms);

    /// <summary>Extra ohms until a twentieth of the lawn is silent (Ω); negative when it already is; null when no resistance would do.</summary>
    public double? SpareAtFivePercentOhms => Signal.OhmsToSpare(_quantiles[Shares / 20], ExpectedOhms);

    /// <summary>Computes the map.</summary>
    /// <param name="yard">A checked yard.</param>
    /// <param name="places">About how many places the map may have, 100 to 1,000,000. For a picture that follows the hand, few.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of places is out of its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static SignalMap Of(Yard yard, int places = 30_000, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        Of(yard, null, LoopState.Sound, places, progress, cancellation);

    /// <summary>Computes the map of a loop with a fault; its strengths are those at which a sound loop would be heard as well.</summary>
    /// <param name="yard">A checked yard.</param>
    /// <param name="fault">The fault; null for a sound loop.</param>
    /// <param name="state">What is asked for.</param>
    /// <param name="places">As for a sound loop.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of places is out of its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static SignalMap Of(
        Yard yard, SupposedFault? fault, LoopState state, int places = 30_000, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        if (places is < 100 or > 1_000_000)
        {
            throw new ArgumentOutOfRangeException(nameof(places), places, "Needs 100 to 1,000,000 places.");
        }

        LoopBudget budget = LoopBudget.For(yard);
        SignalBudget signal = new(yard.Mower.ReachConstantOhmMetres, yard.Station.SourceOhms, budget.ReactanceOhms);
        double cell = Math.Max(LoopReach.DefaultCellMetres(yard.Lawn), Math.Sqrt(yard.Lawn.AreaSquareMetres / places));
        FaultyReach? faulty = fault is null ? null : FaultyReach.Of(yard, fault, state, cell, Half(progress, 0), cancellation);
        LoopReach reach = faulty?.Reach ?? new(yard, cell, againstNeighbours: false, Half(progress, 0), cancellation);
        (PlanPoint southWest, PlanPoint northEast) = yard.Lawn.Bounds;
        double box = (northEast.EastMetres - southWest.EastMetres) * (northEast.NorthMetres - southWest.NorthMetres);
        double spacing = Math.Sqrt(Math.Max(box, 1e-4) / places);
        PlanGrid grid = PlanGrid.Covering(
            new(southWest.EastMetres - (1.5 * spacing), southWest.NorthMetres - (1.5 * spacing)),
            new(northEast.EastMetres + (1.5 * spacing), northEast.NorthMetres + (1.5 * spacing)),
            spacing);
        float[] strength = Array.ConvertAll(reach.StrengthOn(grid, Half(progress, 0.5), cancellation), value => (float)value);
        float[] quantiles = [.. Enumerable.Range(0, Shares + 1).Select(i => (float)reach.FieldQuantile((double)i / Shares))];
        return new(grid, strength, quantiles, reach.Weakest, signal, budget.ExpectedOhms.Nominal) { MetalShare = faulty?.MetalShare };
    }

    /// <summary>The field per ampere (1/m) from which on the mower hears, with so many extra ohms.</summary>
    /// <param name="extraOhms">Ohms beyond the healthy loop; not less than the loop has.</param>
    public double RequiredFieldPerAmpere(double extraOhms) => Signal.RequiredFieldPerAmpere(ExpectedOhms + extraOhms);

    /// <summary>Share of the lawn that is heard, 0 to 1, to a thousandth.</summary>
    /// <inheritdoc cref="RequiredFieldPerAmpere" path="/param"/>
    public double HeardShare(double extraOhms)
    {
        float required = (float)RequiredFieldPerAmpere(extraOhms);
        int at = Array.BinarySearch(_quantiles, required);
        if (at >= 0)
        {
            while (at > 0 && _quantiles[at - 1] == required)
            {
                at--;
            }

            return 1 - ((double)at / Shares);
        }

        at = ~at;
        return at == 0 ? 1
            : at > Shares ? 0
            : 1 - ((at - 1 + ((required - _quantiles[at - 1]) / (_quantiles[at] - _quantiles[at - 1]))) / Shares);
    }

    /// <summary>Margin of the weakest place (dB); −∞ where there is no field at all.</summary>
    /// <inheritdoc cref="RequiredFieldPerAmpere" path="/param"/>
    public double WeakestDecibels(double extraOhms) => Signal.MarginDecibels(Weakest.FieldPerAmpere, ExpectedOhms + extraOhms);

    /// <summary>Field per ampere (1/m) at a place, between the grid's places by straight lines; null off the grid.</summary>
    public double? StrengthAt(PlanPoint point)
    {
        double column = (point.EastMetres - Grid.SouthWest.EastMetres) / Grid.SpacingMetres;
        double row = (point.NorthMetres - Grid.SouthWest.NorthMetres) / Grid.SpacingMetres;
        if (!(column >= 0 && row >= 0 && column <= Grid.Columns - 1 && row <= Grid.Rows - 1))
        {
            return null;
        }

        int west = Math.Min((int)column, Grid.Columns - 2), south = Math.Min((int)row, Grid.Rows - 2), at = (south * Grid.Columns) + west;
        (double east, double north) = (column - west, row - south);
        return ((1 - north) * (((1 - east) * _strength[at]) + (east * _strength[at + 1])))
            + (north * (((1 - east) * _strength[at + Grid.Columns]) + (east * _strength[at + Grid.Columns + 1])));
    }

    /// <summary>Margin (dB) at a place; null off the grid.</summary>
    /// <param name="point">The place.</param>
    /// <param name="extraOhms">Ohms beyond the healthy loop.</param>
    public double? DecibelsAt(PlanPoint point, double extraOhms) =>
        StrengthAt(point) is { } strength ? Signal.MarginDecibels(strength, ExpectedOhms + extraOhms) : null;

    /// <summary>The map as bytes, to be sent from the worker to the page.</summary>
    public byte[] ToBytes()
    {
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        writer.Write(FormatNumber);
        writer.Write(Grid.SouthWest.EastMetres);
        writer.Write(Grid.SouthWest.NorthMetres);
        writer.Write(Grid.SpacingMetres);
        writer.Write(Grid.Columns);
        writer.Write(Grid.Rows);
        writer.Write(Weakest.Point.EastMetres);
        writer.Write(Weakest.Point.NorthMetres);
        writer.Write(Weakest.FieldPerAmpere);
        writer.Write(Signal.ReachConstantOhmMetres);
        writer.Write(Signal.SourceOhms);
        writer.Write(Signal.ReactanceOhms);
        writer.Write(ExpectedOhms);
        writer.Write(MetalShare ?? double.NaN);
        writer.Write(MemoryMarshal.AsBytes<float>(_quantiles));
        writer.Write(MemoryMarshal.AsBytes<float>(_strength));
        writer.Flush();
        return bytes.ToArray();
    }

    /// <summary>The map that <see cref="ToBytes"/> wrote.</summary>
    /// <exception cref="ArgumentException">Other bytes.</exception>
    public static SignalMap FromBytes(ReadOnlySpan<byte> bytes)
    {
        using MemoryStream stream = new(bytes.ToArray());
        using BinaryReader reader = new(stream);
        try
        {
            if (reader.ReadInt32() != FormatNumber)
            {
                throw new ArgumentException("Not a signal map of this version.", nameof(bytes));
            }

            PlanGrid grid = new(new(reader.ReadDouble(), reader.ReadDouble()), reader.ReadDouble(), reader.ReadInt32(), reader.ReadInt32());
            WeakestPlace weakest = new(new(reader.ReadDouble(), reader.ReadDouble()), reader.ReadDouble());
            SignalBudget signal = new(reader.ReadDouble(), reader.ReadDouble(), reader.ReadDouble());
            double expected = reader.ReadDouble(), metal = reader.ReadDouble();
            if (grid.Columns < 2 || grid.Rows < 2 || bytes.Length - stream.Position != sizeof(float) * (Shares + 1 + ((long)grid.Columns * grid.Rows)))
            {
                throw new ArgumentException("The signal map is cut off.", nameof(bytes));
            }

            float[] quantiles = new float[Shares + 1], strength = new float[grid.Count];
            stream.ReadExactly(MemoryMarshal.AsBytes(quantiles.AsSpan()));
            stream.ReadExactly(MemoryMarshal.AsBytes(strength.AsSpan()));
            return new(grid, strength, quantiles, weakest, signal, expected) { MetalShare = double.IsNaN(metal) ? null : metal };
        }
        catch (EndOfStreamException cut)
        {
            throw new ArgumentException("The signal map is cut off.", nameof(bytes), cut);
        }
    }

    private static ShareOfWork? Half(IProgress<double>? progress, double from) => progress is null ? null : new(progress, from);

    private sealed class ShareOfWork(IProgress<double> whole, double from) : IProgress<double>
    {
        public void Report(double value) => whole.Report(from + (value / 2));
    }
}
