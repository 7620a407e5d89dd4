namespace Swardloop.Core.Diagnosis;

/// <summary>What searching and mending cost along one yard's wire for one kind of fault; made once, used for every row of places.</summary>
internal sealed class WireSearchCosts : ILineSearchCosts
{
    /// <summary>Dug on either side of where the fault should be, as places are met to about 0.2 m (m).</summary>
    public const double MarginMetres = 0.35;

    private readonly YardPhysics _physics;
    private readonly double _check, _joint, _terminals, _mendFixed, _mendPerMetre, _renew, _bypassFixed, _bypassPerMetre, _cut, _tone, _openJoint, _hardPerMetre;
    private readonly double[] _within;
    private readonly bool _onGuide;
    private Cell[] _row = [];

    /// <param name="serviceCase">The case.</param>
    /// <param name="costs">What its steps cost.</param>
    /// <param name="physics">Its yard.</param>
    /// <param name="kind">The kind of fault.</param>
    /// <param name="shows">Share of the moments at which the fault shows to an ohmmeter: what divides the wire is done again until it does.</param>
    public WireSearchCosts(ServiceCase serviceCase, StepCosts costs, YardPhysics physics, CauseKind kind, double shows = 1)
    {
        _physics = physics;
        bool ohms = kind is CauseKind.SeriesResistance or CauseKind.Open or CauseKind.Unsteady or CauseKind.Guide;
        Instruments instruments = serviceCase.Can.TechnicianInstruments;
        double perMinute = serviceCase.Rates.LabourPerHour / 60;
        StepFacts Facts(StepKind step) => serviceCase.Rates.Pace.Of(step);
        _check = costs.CheckAfter;
        _joint = (Facts(StepKind.RemakeJoint).Minutes * perMinute) + Facts(StepKind.RemakeJoint).Parts + _check + StepCosts.Overhead;
        _terminals = (Facts(StepKind.RemakeTerminals).Minutes * perMinute) + Facts(StepKind.RemakeTerminals).Parts + _check + StepCosts.Overhead;
        _mendFixed = (Facts(StepKind.MendSpan).Minutes * perMinute) + Facts(StepKind.MendSpan).Parts + _check + StepCosts.Overhead;
        _mendPerMetre = (Facts(StepKind.MendSpan).MinutesPerMetre * perMinute) + Facts(StepKind.MendSpan).PartsPerMetre;
        _hardPerMetre = StepCosts.HardMinutesPerMetre * perMinute;
        _renew = costs.Money(new(StepKind.RenewLoop)) + _check;
        bool meter = ohms && instruments.HasFlag(Instruments.Multimeter);
        _onGuide = kind == CauseKind.Guide;
        _bypassFixed = meter && !_onGuide ? (Facts(StepKind.Bypass).Minutes * perMinute) + StepCosts.Overhead : double.PositiveInfinity;
        _bypassPerMetre = Facts(StepKind.Bypass).MinutesPerMetre * perMinute;
        StepKind cut = _onGuide || serviceCase.Can.Without.Contains(StepKind.PinProbe) ? StepKind.SplitResistance : StepKind.PinProbe;
        _cut = meter ? (Facts(cut).Minutes * perMinute) + Facts(cut).Parts + StepCosts.Overhead : double.PositiveInfinity;
        double tries = 1 / Math.Max(shows, 0.05);
        (_bypassFixed, _cut) = (_bypassFixed * tries, _cut * tries);
        _openJoint = meter
            ? (Facts(StepKind.SplitResistance).JointMinutes!.Value * perMinute) + Facts(StepKind.SplitResistance).JointParts!.Value + StepCosts.Overhead
            : double.PositiveInfinity;

        // A tone that is heard or not is a test with errors: its cost is raised by what it leaves undecided.
        double toneCost = instruments.HasFlag(Instruments.ToneSender) ? (Facts(StepKind.ToneTrace).Minutes * perMinute) + StepCosts.Overhead : double.PositiveInfinity;
        _tone = kind is CauseKind.Open or CauseKind.Guide ? 2.6 * toneCost : double.PositiveInfinity;
        _within = new double[512];
        for (int i = 0; i < _within.Length; i++)
        {
            _within[i] = SearchWithin(i);
        }
    }

    /// <summary>The row to be searched; must be set before use.</summary>
    public void SetRow(Cell[] row) => _row = row;

    /// <inheritdoc/>
    public double Mend(int first, int last)
    {
        if (first == last)
        {
            return _row[first].Kind == PlaceKind.Span ? Within(_row[first].ToMetres - _row[first].FromMetres) : Known(_row[first].Kind);
        }

        return Math.Min(MendCost(_row[last].ToMetres - _row[first].FromMetres) + Hard(_row[first].FromMetres, _row[last].ToMetres), _renew);
    }

    /// <summary>Mending everything from one cell to another, checking included.</summary>
    public double Mend(Cell first, Cell last) =>
        first == last && first.Kind != PlaceKind.Span ? Known(first.Kind) : Math.Min(MendCost(last.ToMetres - first.FromMetres) + Hard(first.FromMetres, last.ToMetres), _renew);

    // Risk spots lie along the loop.
    private double Hard(double from, double to) => _onGuide ? 0 : _hardPerMetre * StepCosts.HardMetres(_physics.Yard, from - MarginMetres, to + MarginMetres);

    /// <inheritdoc/>
    public double Divide(int first, int left, int last)
    {
        Cell start = _row[first], edge = _row[left], end = _row[last];
        double chord = Math.Min(Distance(start.East1, start.North1, edge.East2, edge.North2), Distance(edge.East2, edge.North2, end.East2, end.North2));
        return Math.Min(Math.Min(_bypassFixed + (_bypassPerMetre * chord), _cut), _tone);
    }

    /// <inheritdoc/>
    public double Open(int place) => _row[place].Kind == PlaceKind.Joint ? _openJoint : double.PositiveInfinity;

    /// <inheritdoc/>
    public double AfterOpening(int place) => _check;

    /// <summary>Mending a stretch outright, checking included.</summary>
    public double MendCost(double lengthMetres) => _mendFixed + (_mendPerMetre * (lengthMetres + (2 * MarginMetres)));

    /// <summary>Mending a fault whose place is known, checking included.</summary>
    public double Known(PlaceKind kind) => kind switch { PlaceKind.Joint => _joint, PlaceKind.Terminal => _terminals, _ => MendCost(0) };

    private static double Distance(double east1, double north1, double east2, double north2)
    {
        double east = east1 - east2, north = north1 - north2;
        return Math.Sqrt((east * east) + (north * north));
    }

    /// <summary>Finding and mending a fault that is anywhere in a plain stretch with equal probability: halve, then mend.</summary>
    private double SearchWithin(double lengthMetres)
    {
        double best = double.PositiveInfinity, searched = 0, left = lengthMetres;
        for (int halvings = 0; halvings < 9; halvings++)
        {
            best = Math.Min(best, searched + Math.Min(MendCost(left), _renew));
            left /= 2;
            searched += Math.Min(Math.Min(_bypassFixed + (_bypassPerMetre * left), _cut), _tone);
        }

        return best;
    }

    private double Within(double lengthMetres)
    {
        int index = (int)lengthMetres;
        double share = lengthMetres - index;
        return index + 1 < _within.Length ? _within[index] + (share * (_within[index + 1] - _within[index])) : _renew;
    }

    /// <summary>One place of a row, with its ends in plan.</summary>
    internal readonly record struct Cell(PlaceKind Kind, double FromMetres, double ToMetres, double East1, double North1, double East2, double North2);

    /// <summary>A cell with its ends looked up.</summary>
    public Cell CellOf(PlaceKind kind, double fromMetres, double toMetres)
    {
        Geometry.PlanPoint from = _physics.Yard.Loop.Path.PointAt(fromMetres), to = _physics.Yard.Loop.Path.PointAt(toMetres);
        return new(kind, fromMetres, toMetres, from.EastMetres, from.NorthMetres, to.EastMetres, to.NorthMetres);
    }
}
