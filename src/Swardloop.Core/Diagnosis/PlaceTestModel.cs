using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>Likelihood of tests that depend on where a fault lies or how much it leaks: tone, capacitance, earth readings, echo, look, crossing.</summary>
/// <remarks>From the network wherever physics reaches (capacitance shares, voltage shares); the rest from stated probabilities.
/// A wire fault is given as its kind and place; <see langword="null"/> stands for a wire without fault.</remarks>
internal sealed partial class PlaceTestModel(YardPhysics physics)
{
    /// <summary>A capacitance meter: what it is off by at both ends alike goes into the wire's own capacitance, known to ±30 %; what is left at each
    /// end, one standard deviation: ±(1 % + 0.1 nF). A leak at the broken end makes a meter read high, by some per cent. Common practice, no source.</summary>
    private const double CapacitanceShare = 0.01, CapacitanceFloorFarad = 0.1e-9, CapacitancePriorShare = 0.3, LeakyEndShare = 0.03;

    /// <summary>A break that conducts a little charges some of the wire beyond it: up to so much of the reading, by half at so many ohms. With ωRC as
    /// far above 1 as they are, 1/(ωRC)² of it; meters work at some hundred hertz to a kilohertz.</summary>
    private const double WetEndShare = 0.08, WetEndOhms = 60e3;

    /// <summary>Voltage shares to earth: meter, galvanic rest and uneven wire together (share of the loop).</summary>
    private const double RatioDeviation = 0.012;

    /// <summary>Stake and soil in series with a leak (Ω), and the spread of readings about the leak, in natural logarithms.</summary>
    private const double StakeOhms = 60, LeakLogSpread = 0.5;

    /// <summary>A sound buried loop to earth: about 4 MΩ within a factor of four.</summary>
    private const double SoundEarthOhms = 4e6, SoundLogSpread = 1.3;

    /// <summary>Meter's input (Ω, model section 5), the batteries that workshops use with the earth ratio (V) and the spread of what they give, as a share.
    /// Common practice, no source.</summary>
    private const double MeterOhms = 10e6, BatterySpread = 0.04;

    private static readonly (double Volts, double Share)[] Batteries = [(9, 0.75), (12, 0.25)];

    /// <summary>Chance that the two voltages of an earth ratio say nothing about how much leaks: another battery, another meter.</summary>
    private const double OtherBattery = 0.25;

    /// <summary>Density or probability of a test that is independent of place: what leaks to earth, all leaks together.</summary>
    /// <param name="seen">An earth-resistance or insulation reading, or an earth ratio, whose voltages add up to the battery's less what the meter loads.</param>
    /// <param name="leakOhms">All leaks in parallel (Ω); infinity: a sound wire.</param>
    /// <param name="sideLeak">Probability that the wire leaks a little for another reason: a broken end or a corroded joint in wet soil.</param>
    public static double EarthLikelihood(Observation seen, double leakOhms, double sideLeak)
    {
        if (seen is Observation.EarthRatio { VoltsA: var a, VoltsB: var b })
        {
            double volts = WhatLeaks(leakOhms, sideLeak, SumDensity(a + b, SoundEarthOhms, SoundLogSpread), (ohms, spread) => SumDensity(a + b, ohms, spread));
            return ((1 - OtherBattery) * volts) + (OtherBattery / 12);
        }

        double? shown = seen switch
        {
            Observation.EarthResistance o => o.Ohms,
            Observation.Insulation o => o.Megohms * 1e6,
            _ => throw new ArgumentException("Not an earth reading.", nameof(seen)),
        };
        double likelihood = WhatLeaks(leakOhms, sideLeak, OfSound(shown), (ohms, spread) => LogNormal(shown, ohms, spread));
        double wrong = seen.By == Person.Owner ? StatedProbabilities.OwnerReadingWrong : StatedProbabilities.TechnicianReadingWrong;
        return ((1 - wrong) * likelihood) + (wrong * (shown is null ? 0.3 : 1 / 18.0));
    }

    /// <summary>A reading's density over what may leak: a known leak beside the sound wire's own, or one somewhere beside another fault.</summary>
    /// <param name="leakOhms">All leaks in parallel (Ω); infinity: none is known.</param>
    /// <param name="sideLeak">Probability that the wire leaks a little for another reason.</param>
    /// <param name="sound">The reading's density over a sound wire.</param>
    /// <param name="about">The same where what leaks is log-normal about a middle (Ω), with a spread in natural logarithms.</param>
    private static double WhatLeaks(double leakOhms, double sideLeak, double sound, Func<double, double, double> about) => double.IsInfinity(leakOhms)
        ? ((1 - sideLeak) * sound) + (sideLeak * about(3e4, 1.5))
        : (0.97 * about(1 / ((1 / (leakOhms + StakeOhms)) + (1 / SoundEarthOhms)), LeakLogSpread)) + (0.03 * sound);

    /// <summary>Density of the sum of an earth ratio's voltages when the wire's resistance to earth is log-normal.</summary>
    private static double SumDensity(double sumVolts, double middleOhms, double logSpread)
    {
        double density = 0, weights = 0, logOhms = Math.Log(middleOhms);
        for (int node = -5; node <= 5; node++)
        {
            double weight = Math.Exp(-node * node / 8.0), loaded = MeterOhms / (MeterOhms + Math.Exp(logOhms + (0.5 * node * logSpread)));
            weights += weight;
            foreach ((double volts, double share) in Batteries)
            {
                // The nodes stand for what lies between them.
                double between = 0.25 * logSpread * loaded * (1 - loaded);
                density += weight * share * NormalDensity(sumVolts, volts * loaded, volts * Math.Sqrt((BatterySpread * BatterySpread * loaded * loaded) + (between * between) + 1e-6));
            }
        }

        return density / weights;
    }

    /// <summary>Probability of such a side leak beside a fault of the wire, or beside none.</summary>
    public static double SideLeak(CauseKind? kind) => kind switch
    {
        CauseKind.Open => StatedProbabilities.BrokenEndLeaks,
        CauseKind.SeriesResistance => StatedProbabilities.BadContactLeaks,
        _ => StatedProbabilities.SoundWireLeaks,
    };

    /// <summary>Likelihood of a voltage-share reading whose current to earth leaves the wire at one apparent place.</summary>
    /// <param name="seen">The reading.</param>
    /// <param name="apparentShare">Place of the leak as a share of the loop's resistance; <see langword="null"/>: no leak to point at.</param>
    /// <param name="extraDeviation">Spread of the apparent place on top of the reading's own.</param>
    public static double RatioLikelihood(Observation.EarthRatio seen, double? apparentShare, double extraDeviation = 0)
    {
        const double Wrong = 0.02;
        double sum = seen.VoltsA + seen.VoltsB;
        if (!(sum > 0))
        {
            return apparentShare is null ? 1 : Wrong;
        }

        double share = seen.VoltsA / sum;
        double deviation = RatioDeviation + (0.005 / sum) + extraDeviation;
        return apparentShare is { } at
            ? ((1 - Wrong) * NormalDensity(share, at, deviation)) + Wrong
            : (0.6 * NormalDensity(share, 0.5, 0.1)) + 0.4;
    }

    /// <summary>Likelihood of a voltage-share reading over faults in series, where nothing leaks but what a sound buried wire leaks anyway.</summary>
    /// <remarks>The battery's volts fall at the faults, and earth floats to the mean of what leaks into it. Leaking all along, the wire shows
    /// which share of it lies on either side of a fault, as capacitance does for a break. It may also leak most at the fault itself (a broken end, a
    /// corroded joint) or at one place that has nothing to do with it.</remarks>
    /// <param name="seen">The reading.</param>
    /// <param name="sideLeak">Probability that the wire leaks most at the faults.</param>
    /// <param name="first">Place of a fault as a share of the loop, and its share of the loop's resistance.</param>
    /// <param name="second">Another one; none: a share of the resistance of 0.</param>
    /// <param name="extraDeviation">Spread of the reading on top of its own.</param>
    public static double RatioOverFaults(
        Observation.EarthRatio seen, double sideLeak, (double At, double Part) first, (double At, double Part) second = default, double extraDeviation = 0)
    {
        double sum = seen.VoltsA + seen.VoltsB;
        if (!(sum > 0))
        {
            return 1;
        }

        double share = seen.VoltsA / sum, deviation = RatioDeviation + (0.005 / sum) + extraDeviation;
        return RatioMixture(sideLeak, first, second, deviation, (mean, spread) => NormalDensity(share, mean, spread), 1);
    }

    /// <summary>Va/(Va + Vb) over faults in series of a wire that leaks evenly all along: earth lies at the mean of the wire's potential.</summary>
    /// <param name="first">Place of a fault as a share of the loop, and its share of the loop's resistance.</param>
    /// <param name="second">Another one; none: a share of the resistance of 0.</param>
    public static double EvenRatio((double At, double Part) first, (double At, double Part) second) =>
        (Math.Max(0, 1 - first.Part - second.Part) / 2) + (first.Part * (1 - first.At)) + (second.Part * (1 - second.At));

    /// <summary>What an earth ratio over faults in series may show: each way that the wire may leak, with its probability.</summary>
    /// <param name="sideLeak">Probability that the wire leaks most at the faults.</param>
    /// <param name="first">Place of a fault as a share of the loop, and its share of the loop's resistance.</param>
    /// <param name="second">Another one; none: a share of the resistance of 0.</param>
    /// <param name="deviation">Spread of a reading whose leakage is known.</param>
    /// <param name="outcome">Probability or density of the outcome in question, for a mean share and its spread.</param>
    /// <param name="anything">The same where the reading may be anything.</param>
    public static double RatioMixture(
        double sideLeak, (double At, double Part) first, (double At, double Part) second, double deviation, Func<double, double, double> outcome, double anything)
    {
        const double OddLeak = StatedProbabilities.SoundWireLeaksOddly;
        double wire = Math.Max(0, 1 - first.Part - second.Part), even = EvenRatio(first, second);
        double uneven = (first.Part * first.Part * first.At * (1 - first.At)) + (second.Part * second.Part * second.At * (1 - second.At));
        double spread = Math.Sqrt((deviation * deviation) + (StatedProbabilities.LeakageUnevenness * StatedProbabilities.LeakageUnevenness * 4 * uneven));
        double atEnds = 0;
        double parts = first.Part + second.Part;
        if (sideLeak > 0 && parts > 0)
        {
            atEnds = ((first.Part * EitherSide(first, second)) + (second.Part * EitherSide(second, first))) / parts;
        }

        double oneWay = (0.5 * outcome(wire / 4, (wire / 4) + deviation)) + (0.5 * outcome(1 - (wire / 4), (wire / 4) + deviation));
        double odd = (0.5 * oneWay) + (0.5 * anything);
        return ((1 - OddLeak) * (((1 - sideLeak) * outcome(even, spread)) + (sideLeak * atEnds))) + (OddLeak * odd);

        double EitherSide((double At, double Part) fault, (double At, double Part) other)
        {
            double before = (wire * fault.At) + (other.At < fault.At ? other.Part : 0);
            return 0.5 * (outcome(before, deviation) + outcome(before + fault.Part, deviation));
        }
    }

    /// <summary>Likelihood of one place test.</summary>
    /// <param name="seen">The test.</param>
    /// <param name="kind">The wire fault still there: series resistance, open or leak; <see langword="null"/>: none.</param>
    /// <param name="place">Where it is.</param>
    /// <param name="wet">A break that conducts a little.</param>
    public double Likelihood(Observation seen, CauseKind? kind, Place place, bool wet)
    {
        double at = place.AtMetres;
        return seen switch
        {
            Observation.ToneTrace => ToneLikelihood([new(seen, 0, 0, 1)], kind, place, wet),
            Observation.EndCapacitance o => CapacitanceLikelihood(
                o, kind == CauseKind.Open ? (at, at) : null, SideLeak(kind), wet ? WetShare(StatedProbabilities.UsualWetBreakOhms) : 0),
            Observation.EarthRatio o => RatioLikelihood(o, kind == CauseKind.Leak ? at / physics.LengthMetres : null),
            Observation.WireCrossing o => Crossing(o, kind),
            Observation.AcRatio o => AcRatioTest.Density(AcRatioTest.ShareOf(o), kind == CauseKind.Open ? physics.ShareBeyond(at / physics.LengthMetres) : physics.MeanPlaceShare, kind == CauseKind.SeriesResistance ? 0.3 : 0.004),
            Observation.TerminalLook o => TerminalLookTest.Probability(o.State, kind is not null && place.Kind == PlaceKind.Terminal),
            Observation.Wiggle o => Two(o.Jumps, WiggleTest.Jumps(kind, kind is not null && Math.Abs(at - o.AtMetres) <= Yards.Loop.JointReachMetres)),
            Observation.EarthGradient o => EarthGradientTest.Probability(o, kind == CauseKind.Leak ? place : null, physics),
            _ => throw new ArgumentException("Not a test of one place.", nameof(seen)),
        };
    }

    /// <summary>Likelihood of a voltage-share reading over two leaks: it points between them, nearer to the one that leaks more, and how much
    /// more is unknown (natural logarithm of the ratio normal about 0, deviation 1.8).</summary>
    public static double RatioAtLeakPair(Observation.EarthRatio seen, double firstShare, double secondShare)
    {
        double sum = 0, weights = 0;
        for (int node = -4; node <= 4; node++)
        {
            double logRatio = 0.9 * node, weight = Math.Exp(-node * node / 8.0);
            double first = 1 / (1 + Math.Exp(-logRatio));

            // The nodes stand for what lies between them.
            double step = 0.45 * first * (1 - first) * Math.Abs(secondShare - firstShare);
            sum += weight * RatioLikelihood(seen, (first * firstShare) + ((1 - first) * secondShare), step);
            weights += weight;
        }

        return sum / weights;
    }

    /// <summary>Likelihood of all crossings together when two leaks are at work: beside some metal the mower crosses wherever one tries, beside
    /// other only between the leaks and near them, and which it is holds for all of them.</summary>
    /// <param name="crossings">What was seen where, and where the leaks were at that time; of one leak that is left, twice the same place.</param>
    /// <param name="nearMetal">Whether either lies beside metal.</param>
    public double CrossingsAtLeakPair(IReadOnlyList<(CaseEvidence.Item Item, Place First, Place Second)> crossings, bool nearMetal)
    {
        double allAlong = 1, there = 1;
        foreach ((CaseEvidence.Item item, Place first, Place second) in crossings)
        {
            Observation.WireCrossing seen = (Observation.WireCrossing)item.Seen;
            (double anywhere, double near) = CrossesAtLeakPair(seen.AtMetres, seen.NearMetal, first, second, nearMetal, physics.LengthMetres);
            allAlong *= Math.Pow(Mixed(seen.By, seen.Crossed ? anywhere : 1 - anywhere), item.Weight);
            there *= Math.Pow(Mixed(seen.By, seen.Crossed ? near : 1 - near), item.Weight);
        }

        return (StatedProbabilities.CrossesAllAlongMetal * allAlong) + ((1 - StatedProbabilities.CrossesAllAlongMetal) * there);
    }

    /// <summary>Probability of a crossing over two leaks, where the mower crosses all along the metal and where only near the leaks.</summary>
    public static (double AllAlong, double NearLeaks) CrossesAtLeakPair(
        double? atMetres, bool askedNearMetal, Place first, Place second, bool nearMetal, double lengthMetres)
    {
        double here = askedNearMetal && nearMetal ? StatedProbabilities.CrossesAtLeakPair : StatedProbabilities.CrossesAwayFromMetal;

        if (atMetres is not { } at)
        {
            return (here, here);
        }

        // Near: within some five metres of a leak, or between the two, the shorter way round: the wire's ends lie side by side.
        const double Near = 5, Soft = 1;
        double low = Math.Min(first.FromMetres, second.FromMetres), high = Math.Max(first.ToMetres, second.ToMetres);
        bool roundTheEnds = high - low > lengthMetres / 2;
        double reach = roundTheEnds ? -Near : Near;
        double inside = NormalDistribution.Cumulative((at - low + reach) / Soft) * NormalDistribution.Cumulative((high + reach - at) / Soft);
        double within = roundTheEnds ? 1 - inside : inside;
        return (here, (within * here) + ((1 - within) * Math.Min(here, StatedProbabilities.CrossesAwayFromLeaks)));
    }

    private static double Two(bool first, double probabilityOfFirst) => first ? probabilityOfFirst : 1 - probabilityOfFirst;

    private static double Mixed(Person by, double likelihood)
    {
        double wrong = by == Person.Owner ? StatedProbabilities.OwnerError : StatedProbabilities.TechnicianError;
        return ((1 - wrong) * likelihood) + (wrong * 0.5);
    }

    /// <summary>Likelihood of a crossing, when the mower crosses there with some probability.</summary>
    public static double Crossed(Observation.WireCrossing seen, double crosses) => Mixed(seen.By, seen.Crossed ? crosses : 1 - crosses);

    private static double Crossing(Observation.WireCrossing seen, CauseKind? kind)
    {
        double crosses = kind switch { CauseKind.Open => 0.05, CauseKind.Leak => StatedProbabilities.CrossesAtLeak, _ => StatedProbabilities.CrossesElsewhere };
        return Mixed(seen.By, seen.Crossed ? crosses : 1 - crosses);
    }

    /// <summary>Share of a capacitance reading that comes from beyond a break that conducts.</summary>
    /// <param name="ohms">The break's resistance (Ω).</param>
    public static double WetShare(double ohms) => WetEndShare / (1 + (ohms / WetEndOhms));

    /// <summary>Likelihood of the capacitances of both ends.</summary>
    /// <param name="seen">The readings.</param>
    /// <param name="brokenAt">Where the wire is broken, seen from A and from B (m from A); <see langword="null"/>: nowhere.</param>
    /// <param name="sideLeak">Probability that it leaks at the broken end.</param>
    /// <param name="extraShare">Share of a reading that may come from beyond the break, or that coarse places leave open.</param>
    public double CapacitanceLikelihood(Observation.EndCapacitance seen, (double First, double Last)? brokenAt, double sideLeak, double extraShare)
    {
        if (brokenAt is not { } at)
        {
            double whole = physics.LengthMetres + physics.Guides.Sum(guide => guide.LengthMetres);
            return Capacitance(seen, whole, whole, 0.02);
        }

        // A guide wire hangs on the side of the break where its joint is.
        double toA = at.First + physics.Guides.Where(guide => guide.JoinsAtMetres <= at.First).Sum(guide => guide.LengthMetres);
        double toB = physics.LengthMetres - at.Last + physics.Guides.Where(guide => guide.JoinsAtMetres > at.First).Sum(guide => guide.LengthMetres);
        return ((1 - sideLeak) * Capacitance(seen, toA, toB, extraShare)) + (sideLeak * Capacitance(seen, toA, toB, extraShare + LeakyEndShare));
    }

    private double Capacitance(Observation.EndCapacitance seen, double lengthA, double lengthB, double extraShare)
    {
        // y = c·length + error at each end, c normal about the file's value: a two-dimensional Gaussian in closed form, in nF.
        const double Nano = 1e9;
        double c0 = physics.Yard.Loop.CapacitanceFaradPerMetre * Nano, variance = Math.Pow(CapacitancePriorShare * c0, 2);
        double a = seen.FaradA * Nano, b = seen.FaradB * Nano;
        double floor = Math.Pow(CapacitanceFloorFarad * Nano, 2);
        double vA = floor + Math.Pow((CapacitanceShare + extraShare) * a, 2);
        double vB = floor + Math.Pow((CapacitanceShare + extraShare) * b, 2);
        double dA = a - (c0 * lengthA), dB = b - (c0 * lengthB);
        double sAA = vA + (variance * lengthA * lengthA), sBB = vB + (variance * lengthB * lengthB), sAB = variance * lengthA * lengthB;
        double determinant = (vA * vB) + (variance * ((lengthA * lengthA * vB) + (lengthB * lengthB * vA)));
        double chi = ((sBB * dA * dA) - (2 * sAB * dA * dB) + (sAA * dB * dB)) / determinant;
        double density = Math.Exp(-chi / 2) / (2 * Math.PI * Math.Sqrt(determinant));

        // A reading that is simply wrong may be anything up to twice the whole wire.
        double range = 2 * c0 * physics.LengthMetres;
        const double Wrong = 0.02;
        return ((1 - Wrong) * density) + (Wrong / (range * range));
    }

    private static double OfSound(double? shown) => shown is { } ohms
        ? 0.5 * NormalDensity(Math.Log(Math.Max(ohms, 1) / SoundEarthOhms), 0, SoundLogSpread)
        : 0.5;

    private static double LogNormal(double? shown, double middle, double spread)
    {
        double over = OverRange.Probability(middle);
        return shown is { } ohms ? (1 - over) * NormalDensity(Math.Log(Math.Max(ohms, 1) / middle), 0, spread) : over;
    }

    private static double NormalDensity(double x, double mean, double deviation)
    {
        double z = (x - mean) / deviation;
        return Math.Exp(-z * z / 2) / (deviation * Math.Sqrt(2 * Math.PI));
    }
}
