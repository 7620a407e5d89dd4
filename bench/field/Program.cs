using System.Diagnostics;
using System.Globalization;
using System.Runtime.Intrinsics;
using Swardloop.Bench.Field;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

// The signal picture of 500 pieces × 250,000 places against numpy and against the machine's own limit, in one run. Arguments: the python to
// call and numpy_map.py. Best of several runs, as other work on the machine only ever slows a run down.
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
const int Pieces = 500, Columns = 500, Rows = 500;
int threads = Environment.ProcessorCount;

PolylineField field = new(Circle(Pieces), 0.12);
PlanGrid grid = new(new(0, 0), 0.1, Columns, Rows);
FieldMap map = new(field, grid);
long before = Process.GetCurrentProcess().PeakWorkingSet64;
double ours = Best(15, () => map = new FieldMap(field, grid));
long peak = Process.GetCurrentProcess().PeakWorkingSet64;
double oneRow = Best(200, () => field.FillRow(12.3, Row(), new double[Columns]));
double limit = BestLimit(15), oneLimit = Best(15, () => Limit.Run()) / Terms();
double terms = (double)Pieces * Columns * Rows;

Console.WriteLine($"machine            {threads} cores, vectors of {(Vector512.IsHardwareAccelerated ? 8 : 4)} doubles, .NET {Environment.Version}");
Console.WriteLine($"map                {Pieces} pieces x {Columns * Rows} places");
Console.WriteLine($"swardloop          {1e3 * ours:F1} ms on {threads} cores   {1e9 * ours / terms:F4} ns per piece and place");
Console.WriteLine($"limit              {1e3 * limit * terms:F1} ms on {threads} cores   {1e9 * limit:F4} ns: one square root, one division, fourteen multiply/adds");
Console.WriteLine($"of the limit       {100 * limit * terms / ours:F0} %   (one core, one row: {100 * oneLimit * Pieces * Columns / oneRow:F0} %)");
Console.WriteLine($"peak memory        {peak / 1e6:F0} MB of the whole process ({before / 1e6:F0} MB before the timed runs)");
foreach ((int pieces, int rows) in new[] { (125, 500), (250, 500), (500, 500), (1000, 500), (500, 125), (500, 250), (500, 1000) })
{
    PolylineField other = new(Circle(pieces), 0.12);
    double seconds = Best(7, () => _ = new FieldMap(other, grid with { Rows = rows }));
    Console.WriteLine($"growth             {pieces,4} pieces x {Columns * rows,6} places: {1e3 * seconds,6:F1} ms, {1e9 * seconds / ((double)pieces * Columns * rows):F4} ns each");
}

{
    // Many pieces at many places: the tree of far pieces against the plain sum of every thousandth row, in this run.
    const int Many = 10_000, Wide = 1_000;
    PolylineField many = new(Circle(Many), 0.12);
    PlanGrid large = new(new(0, 0), 0.05, Wide, Wide);
    double tree = Best(5, () => _ = new FieldMap(many, large));
    double[] east = [.. Enumerable.Range(0, Wide).Select(i => i * 0.05)], row = new double[Wide];
    double plain = Best(5, () => Parallel.For(0, threads, _ => many.FillRow(12.3, east, new double[Wide]))) * Wide / threads;
    many.FillRow(large[0, 246].NorthMetres, east, row);
    FieldMap summed = new(many, large);
    double off = Enumerable.Range(0, Wide).Max(i => Math.Abs(summed[i, 246] - row[i])) / row.Average(Math.Abs);
    Console.WriteLine($"tree               {Many} pieces x {Wide * Wide} places: {1e3 * tree:F0} ms on {threads} cores; piece by piece {plain:F1} s, so {plain / tree:F0} times the time; they agree to {off:E1} of the row's mean");
}

if (args.Length == 2)
{
    string[] lines = Numpy(args[0], args[1]);
    double numpy = double.Parse(lines[0]);
    double worst = lines.Skip(1).Select((line, i) => Math.Abs((double.Parse(line) / map.FieldPerAmpere[12345 * i]) - 1)).Max();
    Console.WriteLine($"numpy              {numpy:F2} s, so {numpy / ours:F0} times the time; its values agree to {worst:E1}");
}

double Terms() => Limit.Run().Terms;

double BestLimit(int runs)
{
    // As many independent copies as cores, each doing the same work; a hundred and more turns hide the threads' start.
    double best = double.PositiveInfinity;
    for (int i = 0; i < runs; i++)
    {
        long done = 0;
        long started = Stopwatch.GetTimestamp();
        Parallel.For(0, threads, _ => Interlocked.Add(ref done, Limit.Run().Terms));
        best = Math.Min(best, Stopwatch.GetElapsedTime(started).TotalSeconds / done);
    }

    return best;
}

static double[] Row() => [.. Enumerable.Range(0, Columns).Select(i => i * 0.1)];

static WirePath Circle(int pieces) =>
    new(Enumerable.Range(0, pieces + 1).Select(i => i * 2 * Math.PI / pieces).Select(angle => new PlanPoint(25 + (24 * Math.Cos(angle)), 25 + (24 * Math.Sin(angle)))));

static double Best(int runs, Action work)
{
    double best = double.PositiveInfinity;
    for (int i = 0; i < runs; i++)
    {
        long started = Stopwatch.GetTimestamp();
        work();
        best = Math.Min(best, Stopwatch.GetElapsedTime(started).TotalSeconds);
    }

    return best;
}

static string[] Numpy(string python, string script)
{
    ProcessStartInfo start = new(python, [script, $"{Pieces}", $"{Columns}", $"{Rows}"]) { RedirectStandardOutput = true };
    using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{python} does not start.");
    string[] lines = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
    process.WaitForExit();
    return process.ExitCode == 0 ? lines : throw new InvalidOperationException($"{script} failed.");
}
