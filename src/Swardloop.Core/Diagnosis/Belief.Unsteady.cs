using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>A contact that comes and goes: from one moment to the next, or with the weather.</summary>
/// <remarks>
/// Two ways, each with a stated share. From moment to moment every answer meets the contact made or open by itself. With the weather it is one or the
/// other for as long as the same person meets the same ground (one visit): all of those answers agree, and so a visit in which everything reads well
/// acquits it no more than one reading does. What is open is a resistance of any size; readings that differ by more than meter, leads and
/// temperature allow are then both true.
/// </remarks>
internal sealed partial class Belief
{
    /// <summary>Share of the contacts that go with the weather. Judgement, no source.</summary>
    private const double WithTheWeather = 0.65;

    /// <summary>Most grounds that are told apart; what came earlier is met as from moment to moment.</summary>
    private const int MostGrounds = 4;

    /// <summary>Every so many sizes stand for those about them in symptoms.</summary>
    private const int SizesAlike = 4;

    private readonly Dictionary<Int128, double> _besideHarmless = [];
    private double _openNow, _standingUnsteady;
    private Person? _lastThere;

    /// <summary>Probability that a contact that comes and goes, if there is one, is open for a person who looks now: for the last who looked, mostly as
    /// it was then.</summary>
    public double ContactIsOpen(Person by) => _lastThere == by && _standingUnsteady > 0 ? _openNow / _standingUnsteady : 1 - UnsteadyContact.MadeShare;

    /// <summary>Probability that the wire beyond such a contact counts at 1 kHz though it is open.</summary>
    public double OpenContactConducts { get; private set; }

    private void AddUnsteady()
    {
        FaultGroup group = NewGroup(new Cause(CauseKind.Unsteady));
        double prior = _priors[(int)CauseKind.Unsteady];
        double[] ended = new double[_never];
        OpenContactConducts = UnsteadyContact.Conducts(_evidence.Ohms);
        if (prior > 0)
        {
            Place[] places = Grid.Places;
            double[] placePrior = Grid.UnsteadyPrior;
            UnsteadyContact.Ground[] grounds = Grounds();
            _lastThere = grounds.Length > 0 ? grounds[^1].By : null;
            UnsteadyContact.Ground? tested = TestedOn();
            int last = grounds.Length - 1, testedOn = tested is { } there ? Array.IndexOf(grounds, there) : -1;
            List<(Int128 Pattern, double Share)> harmless = HarmlessPatterns();
            Dictionary<(Int128, int), (double Weather, double Open, double OpenAtTests, double Ohms, double Moment)> known = [];
            for (int i = 0; i < places.Length; i++)
            {
                foreach ((int until, double probability) in EndingsAt(places[i]))
                {
                    Int128 inPath = _seriesOhms.Pattern(places[i].AtMetres, until);
                    if (!known.TryGetValue((inPath, until), out (double Weather, double Open, double OpenAtTests, double Ohms, double Moment) answers))
                    {
                        (double weather, double open, double openAtTests) = OverGrounds(grounds, last, testedOn, harmless, inPath, until);
                        double ohms = UnsteadyOhms(inPath);
                        answers = (weather, open, openAtTests, ohms, ohms * SymptomsUntil(Condition.Of(CauseKind.Unsteady), until));
                        known.Add((inPath, until), answers);
                    }

                    double common = prior * placePrior[i] * probability * Found(until) * (until == _never ? 1 : _soundAfter[until]);
                    double whileMade = Tests(UnsteadyContact.ForAMoment), whileOpen = tested is null ? whileMade : Tests(1 - UnsteadyContact.ForAMoment), whileEither = tested is null ? whileMade : Tests(1 - UnsteadyContact.MadeShare);
                    double Tests(double open) => FaultyPlaceTests(CauseKind.Unsteady, places[i], false, until, open: open);
                    double byWeather = common * WithTheWeather * ((Math.Max(0, answers.Weather - answers.OpenAtTests) * whileMade) + (answers.OpenAtTests * whileOpen)), byMoment = common * (1 - WithTheWeather) * answers.Moment * whileEither;
                    if (until == _never)
                    {
                        group.Add(byWeather + byMoment, new Part(CauseKind.Unsteady, places[i], i, SizeSpread.At(0)));
                        double openNow = last == testedOn ? answers.OpenAtTests * whileOpen : answers.Open * whileEither;
                        _openNow += (common * WithTheWeather * openNow) + (byMoment * (1 - UnsteadyContact.MadeShare));
                        _standingUnsteady += byWeather + byMoment;
                    }
                    else
                    {
                        group.End(byWeather + byMoment, until);
                        ended[until] += common * answers.Ohms * whileEither;
                    }
                }
            }
        }

        _running += group.Weight;
        Faults.Add(group);
        AddBehindMended(Condition.Of(CauseKind.Unsteady), CauseKind.Unsteady, ended);
    }

    /// <summary>The ground on which tests were made that show an open contact and not one that is made; of several, the one of most. Null: none was made.</summary>
    private UnsteadyContact.Ground? TestedOn() => _evidence.PlaceTests.Where(item => item.Seen is Observation.AcRatio or Observation.EndCapacitance or Observation.ToneTrace or Observation.Reflection)
        .GroupBy(item => UnsteadyContact.GroundOf(item.Seen)).OrderByDescending(group => group.Count()).ThenBy(group => group.Key.By).ThenBy(group => group.Key.Weather).Select(group => (UnsteadyContact.Ground?)group.Key).FirstOrDefault();

    /// <summary>The grounds that were met, the latest last.</summary>
    private UnsteadyContact.Ground[] Grounds() =>
        [.. _evidence.Ohms.Select(reading => (reading.Index, reading.Ground)).Concat(_evidence.Symptoms.SelectMany(row => row).Select(item => (item.Index, Ground: UnsteadyContact.GroundOf(item.Seen))))
            .Where(met => !met.Ground.IsMoment).OrderBy(met => met.Index).GroupBy(met => met.Ground).OrderBy(group => group.Max(met => met.Index)).Select(group => group.Key).TakeLast(MostGrounds)];

    /// <summary>Likelihood of readings and symptoms of a contact that goes with the weather, and the parts of it in which it is open on two of the grounds.</summary>
    private (double All, double OpenOnOne, double OpenOnOther) OverGrounds(UnsteadyContact.Ground[] grounds, int one, int other, List<(Int128 Pattern, double Share)> harmless, Int128 inPath, int until)
    {
        double all = 0, openOnOne = 0, openOnOther = 0;
        for (int assignment = 0; assignment < 1 << grounds.Length; assignment++)
        {
            double share = 1;
            for (int g = 0; g < grounds.Length; g++)
            {
                double bad = UnsteadyContact.OpenShare(grounds[g]);
                share *= (assignment & (1 << g)) != 0 ? bad : 1 - bad;
            }

            Int128 pattern = 0;
            for (int i = 0; i < _evidence.Ohms.Length; i++)
            {
                bool isOpen = IsOpen(_evidence.Ohms[i].Ground);
                pattern |= isOpen ? inPath & (Int128.One << i) : 0;
            }

            double likelihood = OverSizes(pattern, IsOpen, until, assignment);
            if (harmless.Count > 0)
            {
                const double Harmless = StatedProbabilities.HarmlessResistance;
                double beside = OhmsBesideHarmless(harmless, pattern), symptoms = beside > 0 ? SymptomsOverGrounds(IsOpen, Condition.Of(CauseKind.Open, double.PositiveInfinity), until, assignment) : 0;
                likelihood = ((1 - Harmless) * likelihood) + (Harmless * beside * symptoms);
            }

            likelihood *= share;
            all += likelihood;
            openOnOne += OpenShare(one) * likelihood;
            openOnOther += OpenShare(other) * likelihood;

            double OpenShare(int ground) => ground < 0 ? 1 - UnsteadyContact.MadeShare : (assignment & (1 << ground)) != 0 ? 1 : 0;
            bool IsOpen(UnsteadyContact.Ground ground) => Array.IndexOf(grounds, ground) is >= 0 and var g && (assignment & (1 << g)) != 0;
        }

        return (all, openOnOne, openOnOther);
    }

    /// <summary>Readings and symptoms over every size of the open contact.</summary>
    private double OverSizes(Int128 pattern, Func<UnsteadyContact.Ground, bool> isOpen, int until, int assignment)
    {
        double[] finite = _seriesOhms.BySize(pattern), broken = _breakOhms.BySize(pattern);
        double conducting = 0, ohms = 0, symptoms = 0;
        for (int j = 0; j < _seriesSizes.Count; j++)
        {
            if (j % SizesAlike == 0)
            {
                int middle = Math.Min(j + (SizesAlike / 2), _seriesSizes.Count - 1);
                symptoms = assignment == 0 && j > 0 ? symptoms : SymptomsOverGrounds(isOpen, Condition.Of(CauseKind.SeriesResistance, _seriesSizes.Centre[middle]), until, assignment);
            }

            conducting += _seriesSizes.Prior[j] * finite[j] * symptoms;
        }

        for (int j = 0; j < _breakSizes.Count; j++)
        {
            ohms += _breakSizes.Prior[j] * broken[j];
        }

        double open = ohms * (assignment == 0 ? symptoms : SymptomsOverGrounds(isOpen, Condition.Of(CauseKind.Open, double.PositiveInfinity), until, assignment));
        return ((1 - UnsteadyContact.BrokenShare) * conducting) + (UnsteadyContact.BrokenShare * open);
    }

    /// <summary>Which readings resistance that harms nobody may be in the path of, with probabilities; empty where no reading shows any.</summary>
    private List<(Int128 Pattern, double Share)> HarmlessPatterns()
    {
        if (!Array.Exists(_evidence.Ohms, reading => reading.Ohms - reading.NominalOhms is { } extra && extra > (4 * reading.DeviationOhms) + 2 && extra < 1.5 * _mostHarmless))
        {
            return [];
        }

        Dictionary<Int128, double> shares = [];
        for (int i = 0; i < Grid.Places.Length; i++)
        {
            foreach ((int until, double probability) in EndingsAt(Grid.Places[i]))
            {
                Int128 pattern = _seriesOhms.Pattern(Grid.Places[i].AtMetres, until);
                shares[pattern] = shares.GetValueOrDefault(pattern) + (Grid.SeriesPrior[i] * probability * Found(until));
            }
        }

        return [.. shares.Where(entry => entry.Value > 1e-4).OrderBy(entry => entry.Key).Select(entry => (entry.Key, entry.Value))];
    }

    /// <summary>The readings where the contact is open in some of them and resistance that harms nobody shows in others.</summary>
    private double OhmsBesideHarmless(List<(Int128 Pattern, double Share)> harmless, Int128 open)
    {
        if (!_besideHarmless.TryGetValue(open, out double known))
        {
            TwoFaultOhms.Range small = new(2, _mostHarmless), dry = TwoFaultOhms.Range.Of(CauseKind.Open, true, _leastOfPair), wet = TwoFaultOhms.Range.Of(CauseKind.Open, false, _leastOfPair),
                conducts = TwoFaultOhms.Range.Of(CauseKind.SeriesResistance, false, _leastOfPair);
            foreach ((Int128 pattern, double share) in harmless)
            {
                known += share * (open == 0 ? _twoOhms.Of(pattern, 0, small, conducts).Likelihood
                    : ((1 - UnsteadyContact.BrokenShare) * _twoOhms.Of(pattern, open, small, conducts).Likelihood)
                        + (UnsteadyContact.BrokenShare / 2 * (_twoOhms.Of(pattern, open, small, dry).Likelihood + _twoOhms.Of(pattern, open, small, wet).Likelihood)));
            }

            _besideHarmless.Add(open, known);
        }

        return known;
    }

    private double SymptomsOverGrounds(Func<UnsteadyContact.Ground, bool> isOpen, Condition open, int until, int assignment)
    {
        (int, Condition, int) key = (assignment, open, until);
        if (!_groundSymptoms.TryGetValue(key, out double known))
        {
            // A mower that is watched for a while after a repair meets the contact in more than one state.
            known = SymptomsWhere(item => item.Epoch > until ? Condition.Healthy
                : isOpen(UnsteadyContact.GroundOf(item.Seen)) ? open
                : item.Seen is Observation.MowerCheck ? Condition.Of(CauseKind.Unsteady) : Condition.Healthy)
                * _symptoms.Complaint.Likelihood(Condition.Of(CauseKind.Unsteady));
            _groundSymptoms.Add(key, known);
        }

        return known;
    }

    private double UnsteadyOhms(Int128 pattern)
    {
        double likelihood = 1;
        for (int i = 0; i < _evidence.Ohms.Length; i++)
        {
            OhmsReading reading = _evidence.Ohms[i];
            double one = UnsteadyContact.Likelihood(reading, (pattern & (Int128.One << i)) != 0, _factorDeviation);
            likelihood *= reading.Weight == 1 ? one : Math.Pow(one, reading.Weight);
        }

        return likelihood;
    }
}
