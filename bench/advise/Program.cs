// How long an advice takes in a warm process, from the case's text to the advice's text as `advise --stream` does it, how that grows
// with the wire and its joints, and whether a long stream makes the process grow.
using System.Buffers;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
Console.WriteLine("One advice, case text to advice text, milliseconds. 'Yard known': many cases of one yard; 'new yard': each yard met for the first time.");
Console.WriteLine();
Run(300, 8, 800); // Until the compiler has had its second look at everything, on the one core that it shares with us.
Console.WriteLine("wire m  joints  observations  yard known: median    p95   new yard: median    p95");
Show(300, 8, 200);
foreach (int length in new[] { 100, 200, 400, 800 })
{
    Show(length, 8, 60);
}

foreach (int joints in new[] { 0, 4, 16 })
{
    Show(300, joints, 60);
}

Console.WriteLine();
Console.WriteLine("The first advice for a wire of 300 m beside things of metal, as many and as crooked as a file may hold:");
Console.WriteLine("things  corners of each  ms");
foreach ((int things, int corners) in ((int, int)[])[(1, 10), (100, 10), (100, 2000)])
{
    byte[] text = Case(300, 8, 0, things * corners, Metal(300, things, corners));
    long start = Stopwatch.GetTimestamp();
    Advise(text, new());
    Console.WriteLine($"{things,6}  {corners,15}  {Stopwatch.GetElapsedTime(start).TotalMilliseconds,6:F0}");
}

Console.WriteLine();
Console.WriteLine("Stream of 1,000 cases on yards of their own, one after the other:");
Console.WriteLine("cases  managed heap MB  allocated in all MB");
YardShelf shelf = new();
for (int i = 0; i <= 1000; i++)
{
    if (i % 200 == 0)
    {
        Console.WriteLine($"{i,5}  {GC.GetTotalMemory(forceFullCollection: true) / 1e6,15:F1}  {GC.GetTotalAllocatedBytes() / 1e6,19:F0}");
    }

    Advise(Case(100 + (i % 50), 2, i), shelf);
}

return;

static void Show(int length, int joints, int count)
{
    List<double> known = Run(length, joints, count), fresh = Run(length, joints, count / 2, newYard: true);
    Console.WriteLine($"{length,6}  {joints,6}  {6,12}  {known[known.Count / 2],18:F1}  {known[known.Count * 95 / 100],5:F1}  {fresh[fresh.Count / 2],16:F1}  {fresh[fresh.Count * 95 / 100],5:F1}");
}

static List<double> Run(int length, int joints, int count, bool newYard = false)
{
    YardShelf shelf = new();
    Advise(Case(length, joints, 0), shelf);
    List<double> times = [];
    for (int i = 0; i < count; i++)
    {
        byte[] text = Case(length, joints, i, newYard ? i + 1 : 0);
        long start = Stopwatch.GetTimestamp();
        Advise(text, shelf);
        times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
    }

    times.Sort();
    return times;
}

static void Advise(byte[] text, YardShelf shelf)
{
    Checked<CaseFile> read = CaseFile.Read(text, "case", _ => null, shelf);
    ServiceCase serviceCase = read.IsGood ? read.Value.Case : throw new InvalidOperationException(string.Join(" | ", read.Lines()));
    ArrayBufferWriter<byte> output = new();
    using Utf8JsonWriter json = new(output);
    AdviceJson.Write(Advisor.Advise(serviceCase, CausePriors.Default), serviceCase, json);
    json.Flush();
}

// A series resistance somewhere: lamp, mower, loop, a joint opened, a tone and a look; sizes and places differ from case to case.
static byte[] Case(int length, int joints, int number, int yardNumber = 0, string metal = "")
{
    double east = Math.Round(length / 5.0), north = (length / 2.0) - east;
    double fault = 60 + (number * 37 % 900), at = length * (0.1 + (number * 0.137 % 0.8));
    string jointList = string.Join(',', Enumerable.Range(1, joints).Select(j => $$"""{"atM":{{length * j / (joints + 1.0):F1}},"style":"twisted"} """));
    return Encoding.UTF8.GetBytes($$"""
        {"format":"swardloop-case/1","complaint":"stops",
         "yard":{"format":"swardloop-yard/1","name":"Bench {{yardNumber}}","loop":{"path":[[0,0],[{{east}},0],[{{east}},{{north}}],[0,{{north}}],[0,0]],
           "conductor":{"material":"copper","areaMm2":0.75},"joints":[{{jointList}}] },
           "metal":[{{metal}}] },
         "observations":[
           {"test":"station-lamp","value":"normal","by":"owner"},
           {"test":"mower-start","place":"mid-lawn","value":"no-signal","by":"owner"},
           {"test":"loop-resistance","ohms":{{fault:F1}},"leadOhms":0.3},
           {"test":"tone-trace","atM":{{length / 2}},"from":"A","value":"strong"},
           {"test":"split-resistance","atM":{{at:F1}},"leadOhms":0.4,"ohmsA":{{fault:F1}},"ohmsB":{{0.4 + ((length - at) * 0.024):F1}}},
           {"test":"look","fromM":{{at * 0.5:F1}},"toM":{{at * 0.8:F1}},"value":"nothing"}]}
        """);
}

// Fences that wander 1 to 2 m beside the wire's south side, one after the other.
static string Metal(int length, int things, int corners)
{
    double each = Math.Round(length / 5.0) / things;
    return string.Join(',', Enumerable.Range(0, things).Select(thing => $$"""{"kind":"fence","path":[{{string.Join(',', Enumerable.Range(0, corners).Select(corner =>
        FormattableString.Invariant($"[{each * (thing + (corner / (double)corners)):F4},{-1.5 + (0.5 * Math.Sin(corner)):F4}]")))}}]}"""));
}
