namespace Swardloop.Core.Diagnosis;

/// <summary>Tests and repairs of guide wires.</summary>
internal sealed partial class Planner
{
    /// <summary>From this probability of a fault in a guide on, the guide itself is searched.</summary>
    private const double GuideWorthSearching = 0.1;

    /// <summary>Places of faults on guides with their probability, in order from the station.</summary>
    private List<(Place Place, double Mass)> GuideRow() =>
        [.. _plan.Atoms.Where(atom => atom.OnGuide is not null).GroupBy(atom => atom.OnGuide!.Value.Place)
            .OrderBy(group => group.Key.Guide).ThenBy(group => group.Key.AtMetres).ThenBy(group => group.Key.Kind).Select(group => (group.Key, group.Sum(atom => atom.Weight)))];

    private bool GuideWasMeasured(GuidePhysics guide) => _history.Since(_history.AfterFind).Any(seen => seen is Observation.GuideResistance && ReferenceEquals(_physics.GuideOf(seen), guide));

    private void AddGuideTests()
    {
        double guides = Weight(CauseKind.Guide);
        if (_physics.Guides.Count == 0 || guides + Weight(CauseKind.SeriesResistance) + Weight(CauseKind.Open) < 0.02)
        {
            return;
        }

        foreach (GuidePhysics guide in _physics.Guides.Where(guide => !GuideWasMeasured(guide)))
        {
            foreach (Person by in Doers(StepKind.GuideResistance))
            {
                AddTest(
                    new(StepKind.GuideResistance) { Guide = guide.Wire.Name, By = by }, 4,
                    (outcome, atom) => GuideSides(outcome, atom, guide), outcome => FourWays(outcome, 0.004, 0.004, 0, 0));
            }
        }

        if (guides < GuideWorthSearching)
        {
            return;
        }

        foreach (IGrouping<int, (Place Place, double Mass)> row in GuideRow().GroupBy(entry => entry.Place.Guide))
        {
            GuidePhysics guide = _physics.Guides[row.Key - 1];
            (Place Place, double Mass)[] places = [.. row];
            AddGuideLooks(guide, places);
            AddGuideDivisions(guide, places);
            AddGuideRepairs(guide, places);
        }
    }

    /// <summary>What both readings to a guide show; outcomes as in <see cref="FourWays"/>. A fault in the guide shows in both.</summary>
    private double GuideSides(int outcome, PlanAtom atom, GuidePhysics guide)
    {
        double both = atom.On(guide) is { } fault ? Shows(fault.Ohms, guide.LengthMetres + (_length / 2)) : 0;
        double at = guide.JoinsAtMetres, ohms = atom.Kind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : 0;
        double other = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
        (double a1, double b1) = Sides(ohms, atom.Place);
        (double a2, double b2) = Sides(other, atom.OtherPlace);
        return (outcome == 3 ? both : 0) + ((1 - both) * FourWays(outcome, a1, b1, a2, b2));

        (double A, double B) Sides(double size, Place place)
        {
            if (!(size > 0))
            {
                return (0.004, 0.004);
            }

            double left = PlaceTestModel.Overlap(place, -9, at);
            return (left * Shows(size, at + guide.LengthMetres), (1 - left) * Shows(size, _length - at + guide.LengthMetres));
        }
    }

    private void AddGuideLooks(GuidePhysics guide, (Place Place, double Mass)[] places)
    {
        CaseEvidence.Item[] looks = [.. _history.Since(_history.AfterFind).OfType<Observation.Look>().Where(look => ReferenceEquals(_physics.GuideOn(look), guide)).Select(look => new CaseEvidence.Item(look, 0, 0, 1))];
        double[] visible = [.. places.Select(entry => PlaceTestModel.VisibleProbability(looks, entry.Place))];
        foreach ((double from, double to) in GuideWindows(guide, places, length => Math.Max(2, 0.3 * length), 4))
        {
            if (LookedAt(looks, from, to) > 0.1)
            {
                continue;
            }

            double misled = PlaceTestModel.FalseMark(to - from);
            foreach (Person by in Doers(StepKind.Look))
            {
                double found = by == Person.Owner ? StatedProbabilities.VisibleDamageIsFoundByOwner : StatedProbabilities.VisibleDamageIsFound;
                double Damage(PlanAtom atom)
                {
                    double seen = atom.On(guide) is { } fault ? visible[Array.FindIndex(places, entry => entry.Place == fault.Place)] * found * PlaceTestModel.Overlap(fault.Place, from, to) : 0;
                    return 1 - ((1 - seen) * (1 - misled));
                }

                AddTest(
                    new(StepKind.Look) { FromMetres = from, ToMetres = to, Wire = guide.Wire.Name, By = by }, 2,
                    (outcome, atom) => outcome == 0 ? Damage(atom) : 1 - Damage(atom), outcome => outcome == 0 ? misled : 1 - misled);
            }
        }
    }

    /// <summary>Tones heard and cuts made where the probability along a guide divides.</summary>
    private void AddGuideDivisions(GuidePhysics guide, (Place Place, double Mass)[] places)
    {
        double all = places.Sum(entry => entry.Mass), below = 0;
        List<(double At, double Off)> edges = [];
        for (int i = 0; i + 1 < places.Length; i++)
        {
            below += places[i].Mass;
            double at = Math.Round(places[i].Place.IsPoint ? Math.Min(places[i].Place.ToMetres + 0.6, places[i + 1].Place.AtMetres) : places[i].Place.ToMetres - (places[i + 1].Place.IsPoint ? 0.6 : 0), 1);
            if (at > 0.5 && at < guide.LengthMetres - 0.3 && below > 0.02 * all && below < 0.98 * all)
            {
                edges.Add((at, Math.Abs((below / all) - 0.5)));
            }
        }

        int heard = HeardOn(guide).Count();
        foreach (double at in edges.OrderBy(edge => edge.Off).Take(4).Select(edge => edge.At))
        {
            bool On(Observation seen) => ReferenceEquals(_physics.GuideOn(seen), guide);
            if (heard < MostTones && Doers(StepKind.ToneTrace).Any() && !_history.Since(_history.AfterFind).Any(seen => On(seen) && seen is Observation.ToneTrace other && Math.Abs(other.AtMetres - at) < 1))
            {
                CaseEvidence.Item[][] outcomes = Tones(at, WireEnd.A, guide);
                AddTest(
                    new(StepKind.ToneTrace) { AtMetres = at, From = WireEnd.A, Wire = guide.Wire.Name }, outcomes.Length,
                    (outcome, atom) => atom.On(guide) is { } fault && (fault.Wet || double.IsInfinity(fault.Ohms)) ? PlaceTestModel.LastTone(outcomes[outcome], CauseKind.Open, fault.Place, fault.Wet)
                        : PlaceTestModel.LastTone(outcomes[outcome], null, default, false),
                    outcome => PlaceTestModel.LastTone(outcomes[outcome], null, default, false));
            }

            if (Doers(StepKind.SplitResistance).Any() && !_history.Since(_history.AfterFind).Any(seen => On(seen) && seen is Observation.SplitResistance other && Math.Abs(other.AtMetres - at) < 0.5))
            {
                AddTest(
                    new(StepKind.SplitResistance) { AtMetres = at, Wire = guide.Wire.Name }, 4, (outcome, atom) =>
                    {
                        if (atom.On(guide) is not { } fault)
                        {
                            return FourWays(outcome, 0.004, 0.004, 0, 0);
                        }

                        double left = PlaceTestModel.Overlap(fault.Place, -9, at), shows = Shows(fault.Ohms, guide.LengthMetres);
                        return FourWays(outcome, left * shows, (1 - left) * shows, 0, 0);
                    },
                    outcome => FourWays(outcome, 0.004, 0.004, 0, 0));
            }
        }
    }

    private void AddGuideRepairs(GuidePhysics guide, (Place Place, double Mass)[] places)
    {
        if (!_case.Can.Technician)
        {
            return;
        }

        string name = guide.Wire.Name;
        if (_case.Yard.Loop.JointNear(guide.JoinsAtMetres) is null)
        {
            AddRepair(new(StepKind.RemakeJoint) { AtMetres = guide.JoinsAtMetres }, new(StepKind.RemakeJoint, guide.JoinsAtMetres, null, null, null));
        }

        foreach (Yards.Joint joint in guide.Wire.Joints)
        {
            AddRepair(new(StepKind.RemakeJoint) { AtMetres = joint.AtMetres, Wire = name }, new(StepKind.RemakeJoint, joint.AtMetres, null, null, null) { Wire = name });
        }

        foreach ((double from, double to) in GuideWindows(guide, places, length => 14 + (4.5 * length), 10))
        {
            AddRepair(new(StepKind.MendSpan) { FromMetres = from, ToMetres = to, Wire = name }, new(StepKind.MendSpan, null, from, to, null) { Wire = name });
        }
    }

    /// <summary>Stretches of a guide worth walking or digging: those with the most probability for their price, at most one of each number of cells.</summary>
    private static IEnumerable<(double From, double To)> GuideWindows(GuidePhysics guide, (Place Place, double Mass)[] places, Func<double, double> price, int count)
    {
        List<(double From, double To, int Cells, double Worth)> windows = [];
        for (int i = 0; i < places.Length; i++)
        {
            double mass = 0;
            for (int j = i; j < places.Length; j++)
            {
                mass += places[j].Mass;
                double from = Math.Max(0, Math.Round(places[i].Place.FromMetres - WireSearchCosts.MarginMetres, 1)), to = Math.Min(Math.Round(guide.LengthMetres, 2), Math.Round(places[j].Place.ToMetres + WireSearchCosts.MarginMetres, 1));
                if (to - from >= 0.5)
                {
                    windows.Add((from, to, j - i + 1, mass / price(to - from)));
                }
            }
        }

        return windows.GroupBy(window => window.Cells).Select(group => group.MaxBy(window => window.Worth)).OrderByDescending(window => window.Worth).Take(count).Select(window => (window.From, window.To));
    }

    /// <summary>A reading to every guide as a test over causes; null when there is no guide left to read or nobody to read it.</summary>
    private TroubleshootingProblem.Test? GuideCauseTest(Condition[] conditions)
    {
        if (!_physics.Guides.Any(guide => !GuideWasMeasured(guide)) || Doers(StepKind.GuideResistance).Cast<Person?>().FirstOrDefault() is not { } by)
        {
            return null;
        }

        // All well; one side high; both.
        double[][] likelihood = [.. Enumerable.Range(0, 3).Select(_ => new double[conditions.Length])];
        for (int c = 0; c < conditions.Length; c++)
        {
            double both = c == (int)CauseKind.Guide ? 0.96 : 0.006, one = (CauseKind)c is CauseKind.SeriesResistance or CauseKind.Open ? 0.96 : 0.01;
            one = Math.Min(one, 1 - both);
            (likelihood[0][c], likelihood[1][c], likelihood[2][c]) = (1 - one - both, one, both);
        }

        return new(StepCosts.Overhead + _costs.Money(new(StepKind.GuideResistance) { By = by }), by == Person.Technician, likelihood);
    }
}
