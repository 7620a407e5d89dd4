namespace Swardloop.Core.Fields;

/// <summary>Vertical field of a wire of very many pieces at very many places of one rectangle, faster than piece by piece: what is far from a
/// part of the rectangle enters there as one polynomial, and only what is near is summed. Immutable, safe to share.</summary>
/// <remarks>
/// The rectangle is halved again and again across its longer side. A bundle of pieces that lies at least <see cref="FarShare"/> of a part's longer side
/// away is summed, by <see cref="RowKernel"/>, at that part's 16 × 16 Chebyshev points alone; the polynomial through them is handed down to the
/// halves. Work grows with pieces × log places + places × pieces nearby, not with pieces × places.
/// <para>Error: at most 1e-6 of the sum of the sizes of the pieces' own fields at the place, by the bound for interpolation at Chebyshev points of a function
/// without singularity inside a Bernstein ellipse (Trefethen, Approximation Theory and Approximation Practice, 2013, theorem 8.2, from memory):
/// the nearest singularity of a piece at 0.75 of the longer side gives (1.5 + √3.25)^−16 = 5e-9 for each halving, times a constant. Measured: 1e-9 or better.
/// Where fields cancel, as over the two wires of one trench, it is that sum of sizes and not the small rest that the error is a share of.</para>
/// <para>Made of correctly rounded operations in one fixed order, roots instead of cosines, so that it has the same bits on every machine and with any
/// number of threads.</para>
/// </remarks>
internal sealed class FarFieldTree
{
    /// <summary>Pieces × places from which a tree is made. Below, every sum stays piece by piece, to the last bit what it was.</summary>
    public const long WorthWhile = 200_000_000;

    /// <summary>Pieces below which a tree gains nothing.</summary>
    public const int FewestPieces = 256;

    /// <summary>How far off something far is, in longer sides of the part.</summary>
    public const double FarShare = 0.75;

    private const int Points = 16, Bundle = 8, FewestNear = 32, MostPlaces = 4 * Points * Points;

    private static readonly double[] Nodes = MakeNodes();
    private static readonly double[] ToCoefficients = MakeToCoefficients();
    private static readonly double[][] ToHalves = [MakeToHalf(-1), MakeToHalf(1)];

    private readonly double[] _east, _north;
    private readonly double _squaredHeight;
    private readonly Part _root;

    /// <summary>Makes the tree.</summary>
    /// <param name="east">Eastings of the wire's corners (m).</param>
    /// <param name="north">Their northings (m).</param>
    /// <param name="squaredHeight">Square of the height of the places over the wire (m²).</param>
    /// <param name="rectangle">Where all places lie.</param>
    /// <param name="places">How many there are, spread evenly.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public FarFieldTree(double[] east, double[] north, double squaredHeight, Rectangle rectangle, long places, CancellationToken cancellation)
    {
        (_east, _north, _squaredHeight) = (east, north, squaredHeight);
        Range[] bundles = new Range[(east.Length - 1 + Bundle - 1) / Bundle];
        Rectangle[] boxes = new Rectangle[bundles.Length];
        for (int i = 0; i < bundles.Length; i++)
        {
            int from = i * Bundle, to = Math.Min(from + Bundle, east.Length - 1);
            bundles[i] = from..to;
            boxes[i] = Rectangle.Round(east.AsSpan(from, to - from + 1), north.AsSpan(from, to - from + 1));
        }

        _root = new(rectangle, new double[Points * Points], [.. Enumerable.Range(0, bundles.Length)], places);
        List<Part> level = [_root];
        while (level.Count > 0)
        {
            // Each part writes its own values only: threads change nothing.
            long terms = level.Sum(part => (long)part.Near.Length) * Bundle * Points * Points;
            RowWork.Run(level.Count, terms, i => Settle(level[i], bundles, boxes), null, cancellation);
            Terms += level.Sum(part => part.SummedPieces * Points * Points);
            List<Part> next = [];
            foreach (Part part in level)
            {
                if (part.NearPieces > FewestNear && part.Places > MostPlaces)
                {
                    part.Split();
                    next.AddRange(part.Halves);
                }
                else
                {
                    Terms += (long)(part.NearPieces * part.Places);
                    part.Finish();
                }
            }

            level = next;
        }
    }

    /// <summary>How many pieces × places are summed, here and when all the places are filled; without a tree it is all of them.</summary>
    public long Terms { get; }

    /// <summary>A tree, or <see langword="null"/> where piece by piece is as fast.</summary>
    /// <inheritdoc cref="FarFieldTree(double[], double[], double, Rectangle, long, CancellationToken)" path="/param"/>
    public static FarFieldTree? For(double[] east, double[] north, double squaredHeight, Rectangle rectangle, long places, CancellationToken cancellation) =>
        east.Length > FewestPieces && (east.Length - 1) * places >= WorthWhile ? new(east, north, squaredHeight, rectangle, places, cancellation) : null;

    /// <summary>Vertical field for one ampere (1/m) at places on one line from west to east.</summary>
    /// <param name="northMetres">Northing of the line (m), within the rectangle.</param>
    /// <param name="eastMetres">Eastings of the places (m), rising, within the rectangle.</param>
    /// <param name="fieldPerAmpere">Receives the field at each place (1/m).</param>
    public void FillRow(double northMetres, ReadOnlySpan<double> eastMetres, Span<double> fieldPerAmpere) =>
        Fill(_root, northMetres, eastMetres, fieldPerAmpere);

    private void Fill(Part part, double north, ReadOnlySpan<double> east, Span<double> field)
    {
        while (part.Halves.Length > 0)
        {
            if (east.IsEmpty)
            {
                return;
            }

            if (!part.IsSplitEast)
            {
                part = part.Halves[north < part.Rectangle.MiddleNorth ? 0 : 1];
                continue;
            }

            int west = east.BinarySearch(part.Rectangle.MiddleEast);
            west = west < 0 ? ~west : west;
            Fill(part.Halves[0], north, east[..west], field[..west]);
            part = part.Halves[1];
            east = east[west..];
            field = field[west..];
        }

        if (!east.IsEmpty)
        {
            part.Polynomial(north, east, field);
            Add(part.NearRuns, north, east, field);
        }
    }

    /// <summary>Sums what is far from a part and was not yet far from its whole, at the part's points; the rest stays near.</summary>
    private void Settle(Part part, Range[] bundles, Rectangle[] boxes)
    {
        double far = FarShare * Math.Max(part.Rectangle.WidthEast, part.Rectangle.WidthNorth);
        List<int> near = [], away = [];
        foreach (int bundle in part.Near)
        {
            (boxes[bundle].SquaredDistanceTo(part.Rectangle) >= far * far ? away : near).Add(bundle);
        }

        (part.Near, part.NearRuns) = ([.. near], Runs(near, bundles));
        Range[] awayRuns = Runs(away, bundles);
        part.SummedPieces = Count(awayRuns);
        part.NearPieces = Count(part.NearRuns);
        if (awayRuns.Length == 0)
        {
            return;
        }

        Span<double> east = stackalloc double[Points];
        for (int k = 0; k < Points; k++)
        {
            east[k] = part.Rectangle.MiddleEast + (part.Rectangle.WidthEast / 2 * Nodes[k]);
        }

        for (int row = 0; row < Points; row++)
        {
            Add(awayRuns, part.Rectangle.MiddleNorth + (part.Rectangle.WidthNorth / 2 * Nodes[row]), east, part.Values.AsSpan(row * Points, Points));
        }
    }

    private void Add(Range[] runs, double north, ReadOnlySpan<double> east, Span<double> field)
    {
        const int OnStack = 128;
        Span<double> one = east.Length <= OnStack ? stackalloc double[OnStack] : new double[east.Length];
        one = one[..east.Length];
        foreach (Range run in runs)
        {
            Range corners = run.Start..(run.End.Value + 1);
            RowKernel.Fill(_east.AsSpan(corners), _north.AsSpan(corners), _squaredHeight, north, east, one);
            for (int i = 0; i < one.Length; i++)
            {
                field[i] += one[i];
            }
        }
    }

    /// <summary>Bundles, in order, as runs of pieces that follow one another: neighbours share a corner and its root.</summary>
    private static Range[] Runs(List<int> which, Range[] bundles)
    {
        List<Range> runs = [];
        foreach (int bundle in which)
        {
            Range pieces = bundles[bundle];
            if (runs.Count > 0 && runs[^1].End.Value == pieces.Start.Value)
            {
                runs[^1] = runs[^1].Start..pieces.End;
            }
            else
            {
                runs.Add(pieces);
            }
        }

        return [.. runs];
    }

    private static long Count(Range[] runs) => runs.Sum(run => (long)run.End.Value - run.Start.Value);

    // cos((2k + 1)π/32): the first by halving the angle of cos(π/4) = √½ three times, the others by their recurrence.
    private static double[] MakeNodes()
    {
        double first = Math.Sqrt(2 + Math.Sqrt(2 + Math.Sqrt(2 + Math.Sqrt(2)))) / 2, twice = (2 * first * first) - 1;
        double[] nodes = new double[Points];
        nodes[0] = first;
        nodes[1] = (2 * twice * first) - first;
        for (int k = 2; k < Points / 2; k++)
        {
            nodes[k] = (2 * twice * nodes[k - 1]) - nodes[k - 2];
        }

        for (int k = 0; k < Points / 2; k++)
        {
            nodes[Points - 1 - k] = -nodes[k];
        }

        return nodes;
    }

    /// <summary>Chebyshev's polynomials at a place, T0 to T15.</summary>
    private static void Chebyshev(double x, Span<double> values)
    {
        (values[0], values[1]) = (1, x);
        for (int j = 2; j < values.Length; j++)
        {
            values[j] = (2 * x * values[j - 1]) - values[j - 2];
        }
    }

    private static double[] MakeToCoefficients()
    {
        double[] matrix = new double[Points * Points], at = new double[Points];
        for (int k = 0; k < Points; k++)
        {
            Chebyshev(Nodes[k], at);
            for (int j = 0; j < Points; j++)
            {
                matrix[(j * Points) + k] = (j == 0 ? 1.0 : 2.0) / Points * at[j];
            }
        }

        return matrix;
    }

    private static double[] MakeToHalf(int side)
    {
        double[] matrix = new double[Points * Points], at = new double[Points];
        for (int j = 0; j < Points; j++)
        {
            Chebyshev((Nodes[j] + side) / 2, at);
            for (int k = 0; k < Points; k++)
            {
                double sum = 0;
                for (int m = 0; m < Points; m++)
                {
                    sum += ToCoefficients[(m * Points) + k] * at[m];
                }

                matrix[(j * Points) + k] = sum;
            }
        }

        return matrix;
    }

    /// <summary>A level rectangle (m).</summary>
    internal readonly record struct Rectangle(double West, double South, double East, double North)
    {
        public double WidthEast => East - West;

        public double WidthNorth => North - South;

        public double MiddleEast => (West + East) / 2;

        public double MiddleNorth => (South + North) / 2;

        public static Rectangle Round(ReadOnlySpan<double> east, ReadOnlySpan<double> north)
        {
            (double west, double south, double mostEast, double mostNorth) = (east[0], north[0], east[0], north[0]);
            for (int i = 1; i < east.Length; i++)
            {
                (west, mostEast) = (Math.Min(west, east[i]), Math.Max(mostEast, east[i]));
                (south, mostNorth) = (Math.Min(south, north[i]), Math.Max(mostNorth, north[i]));
            }

            return new(west, south, mostEast, mostNorth);
        }

        public double SquaredDistanceTo(in Rectangle other)
        {
            double east = Math.Max(0, Math.Max(other.West - East, West - other.East)), north = Math.Max(0, Math.Max(other.South - North, South - other.North));
            return (east * east) + (north * north);
        }
    }

    /// <summary>A part of the rectangle, with the field of all that is far from it.</summary>
    private sealed class Part(Rectangle rectangle, double[] values, int[] near, double places)
    {
        public Rectangle Rectangle { get; } = rectangle;

        /// <summary>Values at the points, row by row; once finished, coefficients.</summary>
        public double[] Values { get; private set; } = values;

        /// <summary>Bundles that are not far.</summary>
        public int[] Near { get; set; } = near;

        public Range[] NearRuns { get; set; } = [];

        public long NearPieces { get; set; }

        public long SummedPieces { get; set; }

        public double Places { get; } = places;

        public bool IsSplitEast { get; private set; }

        public Part[] Halves { get; private set; } = [];

        public void Split()
        {
            IsSplitEast = Rectangle.WidthEast >= Rectangle.WidthNorth;
            Rectangle first = IsSplitEast ? Rectangle with { East = Rectangle.MiddleEast } : Rectangle with { North = Rectangle.MiddleNorth };
            Rectangle second = IsSplitEast ? Rectangle with { West = Rectangle.MiddleEast } : Rectangle with { South = Rectangle.MiddleNorth };
            Halves = [new(first, Handed(0), Near, Places / 2), new(second, Handed(1), Near, Places / 2)];
            (Values, Near, NearRuns) = ([], [], []);
        }

        public void Finish()
        {
            double[] along = new double[Points * Points], both = new double[Points * Points];
            Multiply(ToCoefficients, Values, along, isEast: true);
            Multiply(ToCoefficients, along, both, isEast: false);
            (Values, Near) = (both, []);
        }

        /// <summary>Writes the polynomial's values on a line: first made one of the easting alone, then summed by Clenshaw's recurrence.</summary>
        public void Polynomial(double north, ReadOnlySpan<double> east, Span<double> field)
        {
            Span<double> at = stackalloc double[Points], line = stackalloc double[Points];
            Chebyshev(Rectangle.WidthNorth > 0 ? 2 * (north - Rectangle.MiddleNorth) / Rectangle.WidthNorth : 0, at);
            line.Clear();
            for (int row = 0; row < Points; row++)
            {
                for (int k = 0; k < Points; k++)
                {
                    line[k] += at[row] * Values[(row * Points) + k];
                }
            }

            double scale = Rectangle.WidthEast > 0 ? 2 / Rectangle.WidthEast : 0;
            for (int i = 0; i < east.Length; i++)
            {
                double x = scale * (east[i] - Rectangle.MiddleEast), one = 0, two = 0;
                for (int k = Points - 1; k >= 1; k--)
                {
                    (one, two) = (line[k] + (2 * x * one) - two, one);
                }

                field[i] = line[0] + (x * one) - two;
            }
        }

        private double[] Handed(int half)
        {
            double[] handed = new double[Points * Points];
            Multiply(ToHalves[half], Values, handed, IsSplitEast);
            return handed;
        }

        private static void Multiply(double[] matrix, double[] from, double[] to, bool isEast)
        {
            (int step, int line) = isEast ? (1, Points) : (Points, 1);
            for (int other = 0; other < Points; other++)
            {
                for (int j = 0; j < Points; j++)
                {
                    double sum = 0;
                    for (int k = 0; k < Points; k++)
                    {
                        sum += matrix[(j * Points) + k] * from[(other * line) + (k * step)];
                    }

                    to[(other * line) + (j * step)] = sum;
                }
            }
        }
    }
}
