using Swardloop.Core.Geometry;

namespace Swardloop.Core.Budget;

/// <summary>Inductance of thin wires laid in straight pieces: closed forms for each piece and for each pair, summed.</summary>
public static class Inductance
{
    /// <summary>Interior term Y of a round wire with current spread evenly over its section. Holds while the radius is below the
    /// skin depth (0.66 mm of copper at 10 kHz); beyond, the true value lies between this and <see cref="SurfaceCurrent"/>.</summary>
    public const double EvenCurrent = 0.25;

    /// <summary>Interior term Y with all current on the wire's surface: high frequency.</summary>
    public const double SurfaceCurrent = 0;

    /// <summary>Distance taken between the two wires of a run that goes out and back along the same line (m): two insulated wires
    /// side by side in one slit. Common practice, no source.</summary>
    public const double RunSpacingMetres = 0.003;

    private const double MuOver4Pi = 1e-7;

    // Pairs farther apart than this many times the longer of the two are summed by 3 × 3 Gauss points: relative error 5.1e-8 at most
    // (two equal pieces on one line), where the closed form would lose digits by cancelling anyway.
    private const double FarRatio = 5;

    // Below this sine of the angle the pair is taken as parallel. The closed form for meeting lines loses digits as 1/sine: here
    // up to 1e-5 of them; turning a piece by 1e-5 about its middle changes the result by less than that.
    private const double ParallelSine = 1e-5;

    // Up to so many pieces the sum goes over every pair: half a million of them at most, some tens of milliseconds.
    private const int MostPiecesPairByPair = 1000;

    private const double GaussOffset = 0.387298334620741688517926539978; // √(3/5) / 2
    private const double GaussMiddle = 8.0 / 18, GaussSide = 5.0 / 18;

    /// <summary>Inductance of one straight round wire, its return far away (H).</summary>
    /// <param name="lengthMetres">Length (m), above 0.</param>
    /// <param name="radiusMetres">Radius of the metal (m), above 0.</param>
    /// <param name="interior">Interior term Y, 0 to 0.25: <see cref="EvenCurrent"/> or <see cref="SurfaceCurrent"/>.</param>
    /// <returns>2·10⁻⁷ [l ln((l + √(l² + r²))/r) − √(l² + r²) + r + Y l].</returns>
    /// <remarks>Source: Rosa, Bulletin of the Bureau of Standards 4 (1908) 301, from memory. Exact for a current on the axis and
    /// its flux counted from the surface.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">An argument outside its range, or not a number.</exception>
    public static double OfStraightWireHenry(double lengthMetres, double radiusMetres, double interior = EvenCurrent)
    {
        Guard.Positive(lengthMetres);
        Guard.Positive(radiusMetres);
        RequireInterior(interior);
        double slant = Hypot(lengthMetres, radiusMetres);
        return 2 * MuOver4Pi
            * ((lengthMetres * Math.Log((lengthMetres + slant) / radiusMetres)) - slant + radiusMetres + (interior * lengthMetres));
    }

    /// <summary>Mutual inductance of two straight filaments in parallel planes (H): Neumann's integral.</summary>
    /// <param name="fromA">Start of the first, in plan (m).</param>
    /// <param name="toA">Its end; current runs from start to end.</param>
    /// <param name="fromB">Start of the second (m).</param>
    /// <param name="toB">Its end.</param>
    /// <param name="heightMetres">Distance of the two planes (m), 0 for one plane.</param>
    /// <returns>Negative when the currents oppose each other; 0 when a filament has no length or they stand at right angles.
    /// Finite where filaments meet, cross or follow each other on a line; <see langword="null"/> where they lie on one another
    /// (one line, overlapping, no height), for Neumann's integral is infinite there.</returns>
    /// <remarks>Source: Campbell 1915 as given by Grover, Inductance Calculations (1946), chapter 7, from memory, checked against
    /// numerical quadrature. Relative error below 1e-7 (measured), of the same integral without the cosine where that is small; within a
    /// milliradian of parallel below 2e-5.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">An argument that is not finite.</exception>
    public static double? MutualHenry(PlanPoint fromA, PlanPoint toA, PlanPoint fromB, PlanPoint toB, double heightMetres = 0)
    {
        Guard.Finite(heightMetres);
        Piece a = Piece.Between(fromA, toA), b = Piece.Between(fromB, toB);
        Guard.Finite(a.Length + b.Length + a.MiddleEast + b.MiddleEast, nameof(fromA));
        if (a.Length == 0 || b.Length == 0)
        {
            return 0;
        }

        double mutual = Mutual(a, b, heightMetres);
        return double.IsFinite(mutual) ? mutual : null;
    }

    /// <summary>Inductance of the loop that a path makes, closed by a straight piece where its ends do not coincide (H).</summary>
    /// <param name="path">The wire. Corners nearer to each other than its radius count as one; it may run back along itself, as
    /// to an island.</param>
    /// <param name="radiusMetres">Radius of the metal (m), above 0.</param>
    /// <param name="interior">Interior term Y, 0 to 0.25.</param>
    /// <param name="spacingMetres">How far apart two wires lie that are drawn on one line (m), above 0: what a connecting run
    /// to an island measures between its two wires.</param>
    /// <returns>Sum of the pieces' own terms 2·10⁻⁷ l [ln(2l/r) − 1 + Y] and of twice every pair's mutual inductance. The own
    /// term without Rosa's end corrections is the one for which splitting a straight piece changes nothing.</returns>
    /// <remarks>Up to 1,000 pieces every pair is summed; beyond, stretches of wire far from each other count by their chords, with
    /// a relative error below 5e-4 (measured: 3e-4 on a loop of forty waves), and time grows little faster than the number of pieces. Accuracy: of thin-wire theory, about
    /// radius over the shortest length between corners. Spacing matters to runs that double back only: it is counted as a step in
    /// height between pieces that do not follow each other. Source of the sum: Neumann; Grover, chapter 7.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">An argument outside its range, or not a number.</exception>
    /// <exception cref="ArgumentException">A path of no more length than the wire's radius.</exception>
    public static double OfLoopHenry(
        WirePath path, double radiusMetres, double interior = EvenCurrent, double spacingMetres = RunSpacingMetres)
    {
        Guard.Positive(radiusMetres);
        Guard.Positive(spacingMetres);
        RequireInterior(interior);
        Piece[] pieces = ClosedPieces(path, radiusMetres);
        if (pieces.Length == 0)
        {
            throw new ArgumentException("The path is no longer than its wire is thick.", nameof(path));
        }

        double own = 0;
        foreach (Piece piece in pieces)
        {
            own += piece.Length * (Math.Log(2 * piece.Length / radiusMetres) - 1 + interior);
        }

        return 2 * ((MuOver4Pi * own) + new PairSum(pieces, spacingMetres, pieces.Length > MostPiecesPairByPair).OfAll());
    }

    private static void RequireInterior(double interior)
    {
        if (!(interior >= 0 && interior <= EvenCurrent))
        {
            throw new ArgumentOutOfRangeException(nameof(interior), interior, "Needs 0 (surface current) to 0.25 (even current).");
        }
    }

    // Corners nearer to each other than the wire is thick are one corner: the thin-wire sum means nothing between them.
    private static Piece[] ClosedPieces(WirePath path, double radius)
    {
        IReadOnlyList<PlanPoint> drawn = path.Points;
        PlanPoint[] corners = new PlanPoint[drawn.Count];
        int count = 0;
        for (int i = 0; i < drawn.Count; i++)
        {
            if (count == 0 || drawn[i].DistanceTo(corners[count - 1]) > radius)
            {
                corners[count++] = drawn[i];
            }
        }

        if (count > 1 && corners[count - 1].DistanceTo(corners[0]) <= radius)
        {
            count--;
        }

        Piece[] pieces = new Piece[count < 2 ? 0 : count];
        for (int i = 0; i < pieces.Length; i++)
        {
            pieces[i] = Piece.Between(corners[i], corners[(i + 1) % count]);
        }

        return pieces;
    }

    // Two pieces that follow each other at a turn of more than about 150° lie side by side near their corner.
    private static bool FoldsBack(in Piece a, in Piece b) => (a.East * b.East) + (a.North * b.North) < -0.87;

    /// <summary>Neumann's integral of one pair (H); infinite where one lies on the other without height.</summary>
    private static double Mutual(in Piece a, in Piece b, double height)
    {
        double cosine = (a.East * b.East) + (a.North * b.North);
        if (cosine == 0)
        {
            return 0;
        }

        double east = b.MiddleEast - a.MiddleEast, north = b.MiddleNorth - a.MiddleNorth;
        double longer = Math.Max(a.Length, b.Length);
        if ((east * east) + (north * north) > FarRatio * FarRatio * longer * longer)
        {
            return MuOver4Pi * cosine * Far(a, b, east, north, height);
        }

        double sine = (a.East * b.North) - (a.North * b.East);
        return MuOver4Pi * (Math.Abs(sine) < ParallelSine
            ? Math.Sign(cosine) * Parallel(a, b, east, north, height)
            : cosine * Skew(a, b, east, north, cosine, sine, height));
    }

    private static double Far(in Piece a, in Piece b, double east, double north, double height)
    {
        double sum = 0;
        for (int i = -1; i <= 1; i++)
        {
            double alongA = i * GaussOffset * a.Length;
            double fromEast = east - (alongA * a.East), fromNorth = north - (alongA * a.North);
            for (int j = -1; j <= 1; j++)
            {
                double alongB = j * GaussOffset * b.Length;
                double x = fromEast + (alongB * b.East), y = fromNorth + (alongB * b.North);
                double weight = (i == 0 ? GaussMiddle : GaussSide) * (j == 0 ? GaussMiddle : GaussSide);
                sum += weight / Math.Sqrt((x * x) + (y * y) + (height * height));
            }
        }

        return a.Length * b.Length * sum;
    }

    // ∬ ds dt / √((s − t)² + d²) by the second antiderivative F(x) = x asinh(x/d) − √(x² + d²), at the four end-to-end distances.
    private static double Parallel(in Piece a, in Piece b, double east, double north, double height)
    {
        double along = (east * a.East) + (north * a.North);
        double across = (east * a.North) - (north * a.East);
        double distance = Hypot(across, height);
        double half = (a.Length + b.Length) / 2, difference = (a.Length - b.Length) / 2;
        double near = Math.Abs(along) - half;

        // On one line end to end, rounding leaves distances of 1e-16 and gaps of the same size: the limit for distance 0 is meant.
        double tiny = 1e-12 * half;
        if (distance <= tiny)
        {
            return near < -tiny
                ? double.PositiveInfinity
                : OnOneLine(along + half) + OnOneLine(along - half) - OnOneLine(along + difference) - OnOneLine(along - difference);
        }

        return Antiderivative(along + half, distance) + Antiderivative(along - half, distance)
            - Antiderivative(along + difference, distance) - Antiderivative(along - difference, distance);
    }

    private static double Antiderivative(double x, double distance) =>
        (x * Math.Asinh(x / distance)) - Hypot(x, distance);

    // The same as the distance goes to 0, less terms linear in |x| whose sum over the four ends vanishes when nothing overlaps.
    private static double OnOneLine(double x)
    {
        double size = Math.Abs(x);
        return size > 0 ? size * Math.Log(size) : 0;
    }

    /// <summary>∬ ds dt / r for lines at an angle, without the cosine.</summary>
    private static double Skew(in Piece a, in Piece b, double east, double north, double cosine, double sine, double height)
    {
        // mu, nu: from the lines' crossing (in plan) to each filament's start. r1 to r4: end to end, as Grover names them.
        double halfA = a.Length / 2, halfB = b.Length / 2;
        double mu = (((north * b.East) - (east * b.North)) / sine) - halfA;
        double nu = (((north * a.East) - (east * a.North)) / sine) - halfB;
        double endA = mu + a.Length, endB = nu + b.Length;
        // Not by the cosine rule from mu and nu: nearly parallel lines cross far away, and it would cancel.
        double r1 = Separation(a, halfA, b, halfB), r2 = Separation(a, halfA, b, -halfB);
        double r3 = Separation(a, -halfA, b, -halfB), r4 = Separation(a, -halfA, b, halfB);

        double sum = LeverTimesSide(endA, nu, endB, r2, r1) + LeverTimesSide(endB, mu, endA, r4, r1)
            - LeverTimesSide(mu, nu, endB, r3, r4) - LeverTimesSide(nu, mu, endA, r3, r2);
        if (height == 0)
        {
            return 2 * sum;
        }

        double tilt = height * height * cosine, square = sine * sine, step = Math.Abs(height * sine);
        double omega = Math.Atan((tilt + (endA * endB * square)) / (step * r1))
            - Math.Atan((tilt + (endA * nu * square)) / (step * r2))
            + Math.Atan((tilt + (mu * nu * square)) / (step * r3))
            - Math.Atan((tilt + (mu * endB * square)) / (step * r4));
        return (2 * sum) - (omega * Math.Abs(height / sine));

        // A filament's end at distance lever from the crossing, times half the integral of 1/r along the other filament, from one
        // coordinate on it to another, whose distances from that end are given. As the end comes to lie on the other filament the
        // integral goes to infinity more slowly than the lever to 0; there the sum of distances has no digits left, the foot has.
        double LeverTimesSide(double lever, double from, double to, double distanceFrom, double distanceTo)
        {
            double share = (to - from) / (distanceFrom + distanceTo);
            if (share < 0.99)
            {
                return lever * Math.Atanh(share);
            }

            double foot = lever * cosine, off = Hypot(lever * sine, height);
            return off > 0 ? lever * (Math.Asinh((to - foot) / off) - Math.Asinh((from - foot) / off)) / 2 : 0;
        }

        double Separation(in Piece p, double s, in Piece q, double t)
        {
            double x = east + (t * q.East) - (s * p.East), y = north + (t * q.North) - (s * p.North);
            return Math.Sqrt((x * x) + (y * y) + (height * height));
        }
    }

    private static double Hypot(double x, double y) => Math.Sqrt((x * x) + (y * y));

    /// <summary>Sum of the mutual inductances of all pairs of a loop's pieces.</summary>
    /// <param name="pieces">In order along the loop, closed.</param>
    /// <param name="spacing">Step in height between pieces that do not follow each other (m).</param>
    /// <param name="byChords">Whether far stretches count by their chords, which carry the same current moment, and by what the wire
    /// encloses with them, to first order.</param>
    private sealed class PairSum(Piece[] pieces, double spacing, bool byChords)
    {
        // A chord stands for its stretch from so many times both stretches' radii on.
        private const double ChordRatio = 4;

        public double OfAll() => Within(Stretch.Of(pieces, 0, pieces.Length));

        private double Within(Stretch all) =>
            all.First is null ? 0 : Within(all.First) + Within(all.Second!) + Between(all.First, all.Second!);

        private double Between(Stretch a, Stretch b)
        {
            double east = b.Chord.MiddleEast - a.Chord.MiddleEast, north = b.Chord.MiddleNorth - a.Chord.MiddleNorth;
            double reach = ChordRatio * (a.Radius + b.Radius);
            if (byChords && (east * east) + (north * north) > reach * reach)
            {
                double cosine = (a.Chord.East * b.Chord.East) + (a.Chord.North * b.Chord.North);
                double cube = Math.Pow((east * east) + (north * north), 1.5);
                double bulge = (a.Bulge.Times(b.Chord, east, north) - b.Bulge.Times(a.Chord, east, north)) / cube;
                return MuOver4Pi * ((cosine * Far(a.Chord, b.Chord, east, north, spacing)) + bulge);
            }

            if (a.First is null && b.First is null)
            {
                bool follows = b.Index == a.Index + 1 || (a.Index == 0 && b.Index == pieces.Length - 1);
                return Mutual(a.Chord, b.Chord, follows && !FoldsBack(a.Chord, b.Chord) ? 0 : spacing);
            }

            return b.First is null || (a.First is not null && a.Radius > b.Radius)
                ? Between(a.First!, b) + Between(a.Second!, b)
                : Between(a, b.First) + Between(a, b.Second!);
        }
    }

    /// <summary>Consecutive pieces, halved down to single ones, with the chord from their start to their end.</summary>
    private sealed record Stretch(int Index, Piece Chord, double Radius, Moment Bulge, Stretch? First, Stretch? Second)
    {
        public static Stretch Of(Piece[] pieces, int from, int to)
        {
            if (to - from == 1)
            {
                return new(from, pieces[from], pieces[from].Length / 2, default, null, null);
            }

            int middle = (from + to) / 2;
            Stretch first = Of(pieces, from, middle), second = Of(pieces, middle, to);
            Piece chord = Piece.Between(first.Chord.Start, second.Chord.End);
            return new(from, chord, Math.Max(Around(first), Around(second)), About(first) + About(second), first, second);

            double Around(Stretch half) =>
                Hypot(half.Chord.MiddleEast - chord.MiddleEast, half.Chord.MiddleNorth - chord.MiddleNorth) + half.Radius;

            Moment About(Stretch half) => half.Bulge + Moment.Of(
                half.Chord, half.Chord.MiddleEast - chord.MiddleEast, half.Chord.MiddleNorth - chord.MiddleNorth);
        }
    }

    /// <summary>First moments of a stretch about its chord's middle (m²): element of wire, by component, times place, by component.</summary>
    private readonly record struct Moment(double EastEast, double EastNorth, double NorthEast, double NorthNorth)
    {
        public static Moment Of(in Piece piece, double east, double north) => new(
            piece.Length * piece.East * east, piece.Length * piece.East * north,
            piece.Length * piece.North * east, piece.Length * piece.North * north);

        public static Moment operator +(Moment a, Moment b) =>
            new(a.EastEast + b.EastEast, a.EastNorth + b.EastNorth, a.NorthEast + b.NorthEast, a.NorthNorth + b.NorthNorth);

        /// <summary>With another stretch's chord on the left and a direction on the right.</summary>
        public double Times(in Piece chord, double east, double north) => chord.Length
            * ((chord.East * ((EastEast * east) + (EastNorth * north))) + (chord.North * ((NorthEast * east) + (NorthNorth * north))));
    }

    private readonly record struct Piece(double MiddleEast, double MiddleNorth, double East, double North, double Length)
    {
        public PlanPoint Start => new(MiddleEast - (Length / 2 * East), MiddleNorth - (Length / 2 * North));

        public PlanPoint End => new(MiddleEast + (Length / 2 * East), MiddleNorth + (Length / 2 * North));

        public static Piece Between(PlanPoint from, PlanPoint to)
        {
            double length = from.DistanceTo(to);
            return new(
                from.EastMetres + ((to.EastMetres - from.EastMetres) / 2),
                from.NorthMetres + ((to.NorthMetres - from.NorthMetres) / 2),
                length > 0 ? (to.EastMetres - from.EastMetres) / length : 0,
                length > 0 ? (to.NorthMetres - from.NorthMetres) / length : 0,
                length);
        }
    }
}
