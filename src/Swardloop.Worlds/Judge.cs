using System.Text.Json;
using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>One step of a dialogue.</summary>
/// <param name="Step">As advised.</param>
/// <param name="Seen">What came of it.</param>
/// <param name="Cost">Money.</param>
/// <param name="Tops">The likeliest causes when it was advised.</param>
internal sealed record Turn(JsonObject Step, JsonObject Seen, double Cost, string Tops);

/// <summary>How a yard went.</summary>
internal sealed record Verdict(Scene Scene, Visit Visit, IReadOnlyList<Turn> Turns, string? Trouble, bool AdviserFailed, bool Cured, double Cost, Visit Card, double TruthCost)
{
    /// <summary>Right cause on top of the last advice before the cure; null without one.</summary>
    public bool? TopRight { get; init; }

    /// <summary>Brier score there, 0 to 2.</summary>
    public double? Brier { get; init; }

    /// <summary>Intervals of place before the cure, and how many held the truth.</summary>
    public (int All, int Held) Places { get; init; }
}

/// <summary>Plays yards against an adviser, which is met only as text: a case in, an advice out.</summary>
internal static class Judge
{
    /// <summary>A cure after so many steps no longer counts.</summary>
    public const int MostSteps = 30;

    /// <summary>Plays several yards of a world; the result does not depend on the threads.</summary>
    public static IReadOnlyList<Verdict> Play(Func<string, string> adviser, World world, ulong seed, int yards, int threads, Action<int>? done = null, CancellationToken cancellation = default)
    {
        Verdict[] verdicts = new Verdict[yards];
        int count = 0;
        Parallel.For(0, yards, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancellation }, i =>
        {
            verdicts[i] = Play(adviser, Scene.Of(world, seed, i));
            done?.Invoke(Interlocked.Increment(ref count));
        });
        return verdicts;
    }

    /// <summary>Plays one yard.</summary>
    public static Verdict Play(Func<string, string> adviser, Scene scene)
    {
        Visit visit = new(scene);
        List<Turn> turns = [];
        string? trouble = null;
        bool failed = false, finished = false;
        (bool Right, double Brier)? last = null;
        (int All, int Held) places = (0, 0);
        while (true)
        {
            JsonObject advice;
            string asked = visit.Case.ToJsonString();
            try
            {
                advice = JsonNode.Parse(adviser(asked)) as JsonObject ?? throw new JsonException("The advice is no object.");
                if (advice["error"] is { } error)
                {
                    throw new JsonException(error.ToString());
                }
            }
            catch (Exception failure) when (failure is not OperationCanceledException)
            {
                (failed, trouble) = (true, $"the adviser failed: {failure.Message}");
                break;
            }

            bool ran = visit.Runs;
            Score(advice);
            if ((bool?)advice["finished"] == true)
            {
                finished = true;
                break;
            }

            if (turns.Count == MostSteps)
            {
                trouble = $"not finished after {MostSteps} steps";
                break;
            }

            if (advice["next"] is not JsonArray { Count: > 0 } next || next[0] is not JsonObject step)
            {
                trouble = "neither finished nor a next step";
                break;
            }

            double paid = visit.Cost;
            string tops = Tops(advice);
            turns.Add(new(step, visit.Do(step), visit.Cost - paid, tops));

            void Score(JsonObject said)
            {
                if (!ran)
                {
                    last = Causes(scene, visit.Left, said);
                    if (Holds(scene, said, visit.Left) is { } holds)
                    {
                        places = (places.All + 1, places.Held + (holds ? 1 : 0));
                    }
                }
            }
        }

        bool cured = finished && visit.Runs;
        trouble ??= cured ? null : "called finished, but the mower does not run";
        Visit card = PrintedCard.Play(scene);

        // Who is left with a mower that does not run still has the card.
        return new(scene, visit, turns, trouble, failed, cured, visit.Cost + (cured ? 0 : card.Cost), card, Clairvoyant.Cost(scene))
        {
            TopRight = cured ? last?.Right : null,
            Brier = cured ? last?.Brier : null,
            Places = places,
        };
    }

    private static string Tops(JsonObject advice) => string.Join(", ", (advice["causes"] as JsonArray ?? []).OfType<JsonObject>()
        .OrderByDescending(cause => (double?)cause["probability"] ?? 0).Take(3).Select(cause => FormattableString.Invariant($"{(string?)cause["cause"]} {(double?)cause["probability"] ?? 0:F2}")));

    /// <summary>Right is: every fault, those the mower minds, or what of either is left; of two of one kind, the kind alone too.</summary>
    private static (bool, double) Causes(Scene scene, IReadOnlyList<Trouble> left, JsonObject advice)
    {
        HashSet<string> right = [.. NamesOf(scene.Troubles), .. NamesOf(left)];
        (string Cause, double Probability)[] said = [.. (advice["causes"] as JsonArray ?? []).OfType<JsonObject>().Select(cause => ((string?)cause["cause"] ?? "", (double?)cause["probability"] ?? 0))];
        double given = said.Where(cause => right.Contains(cause.Cause)).Sum(cause => cause.Probability);
        double others = said.Where(cause => !right.Contains(cause.Cause)).Sum(cause => cause.Probability * cause.Probability);
        return (said.Length > 0 && right.Contains(said.MaxBy(cause => cause.Probability).Cause), ((1 - given) * (1 - given)) + others);
    }

    /// <summary>By which names some troubles are rightly called: all of them, or those that the mower minds, in either order; of two of one kind, the kind alone
    /// too. Of none the name is empty.</summary>
    internal static IEnumerable<string> NamesOf(IReadOnlyList<Trouble> troubles)
    {
        HashSet<string> names = [];
        foreach (IEnumerable<Trouble> set in new[] { troubles, troubles.Where(trouble => trouble.Harmful) })
        {
            string[] kinds = [.. set.Select(trouble => trouble.Cause)];
            names.Add(string.Join('+', kinds));
            names.Add(string.Join('+', kinds.Reverse()));
            names.UnionWith(kinds.Distinct().Count() == 1 ? [kinds[0]] : []);
        }

        return names;
    }

    private static bool? Holds(Scene scene, JsonObject advice, IReadOnlyList<Trouble> left)
    {
        if (advice["location"] is not JsonObject place || place["lowM"] is null || place["highM"] is null)
        {
            return null;
        }

        string[] named = ((string?)place["cause"] ?? "").Split('+');
        Trouble[] meant = [.. left.Where(trouble => trouble.At is not null && (trouble.Cause == "guide") == (place["wire"] is not null) && named.Contains(trouble.Cause))];
        double low = (double)place["lowM"]!, high = (double)place["highM"]!;
        return meant.Length == 0 ? null : meant.Any(trouble => In(trouble.At, trouble.AtJoint) || In(trouble.Second, false));

        bool In(double? wireMetres, bool joint) => wireMetres * (place["wire"] is null ? scene.FileScale : 1) is { } at && at >= low - (joint ? 0.3 : 0.005) && at <= high + (joint ? 0.3 : 0.005);
    }
}
