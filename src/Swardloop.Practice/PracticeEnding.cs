using System.Text.Json.Nodes;
using Swardloop.Workshop.Api;
using Swardloop.Worlds;

namespace Swardloop.Practice;

/// <summary>What is told when a practice is over: what was true, and how the printed card and somebody who knew it would have gone.</summary>
public static class PracticeEnding
{
    /// <summary>Tells it.</summary>
    /// <param name="visit">The learner's work.</param>
    /// <param name="engine">The advice's way, as far as it was played.</param>
    /// <param name="german">Whether the advice's reasons are told in German.</param>
    public static PracticeEnd Of(PracticeVisit visit, EngineWay engine, bool german)
    {
        Scene scene = visit.Scene;
        Visit card = PrintedCard.Play(scene), known = Known(scene);
        return new(
            scene.World.Name,
            visit.Seed,
            [.. scene.Troubles.Select(trouble => new PracticeTruth(trouble.Cause, InFile(trouble, trouble.At), InFile(trouble, trouble.Second), trouble.Cause == "guide" ? "G1" : null, trouble.Harmful))],
            [Names(scene.Troubles), .. visit.Log.Select(entry => Names(entry.Left))],
            new(visit.Turns, Cents(visit.Money), visit.Minutes, Cured(visit), Cents(Score(visit)), true),
            Way(card, card.Runs, true, card.Cost),
            Way(known, known.Runs, true, card.Cost),
            engine.Tell(german));

        double? InFile(Trouble trouble, double? at) => at is { } metres ? Math.Round(metres * (trouble.Cause == "guide" ? 1 : scene.FileScale), 1) : null;
    }

    /// <summary>Whether the learner left the mower running, and knew it.</summary>
    public static bool Cured(PracticeVisit visit) => visit.IsOver && visit.Runs;

    /// <summary>What the learner's way costs: who leaves a mower that does not run still has the printed card to work through.</summary>
    public static double Score(PracticeVisit visit) => visit.Money + (Cured(visit) ? 0 : CardMoney(visit));

    /// <summary>What the printed card spends in this yard.</summary>
    public static double CardMoney(PracticeVisit visit) => PrintedCard.Play(visit.Scene).Cost;

    /// <summary>What is spent in this yard by somebody who knows cause and place.</summary>
    public static double KnownMoney(PracticeVisit visit) => Clairvoyant.Cost(visit.Scene);

    internal static PracticeWay Way(Visit visit, bool cured, bool isWhole, double cardMoney, Func<int, string?>? why = null) =>
        new(PracticeVisit.TurnsOf(visit, why), Cents(visit.Cost), visit.Log.Sum(entry => entry.Minutes), cured, Cents(visit.Cost + (cured || !isWhole ? 0 : cardMoney)), isWhole);

    /// <summary>The right repairs in order, and one check by whoever does it cheaper.</summary>
    internal static Visit Known(Scene scene)
    {
        Visit visit = PracticeVisit.Open(scene);
        foreach (JsonObject repair in Clairvoyant.Repairs(scene))
        {
            JsonObject step = (JsonObject)repair.DeepClone();
            step["by"] ??= "technician";
            visit.Do(step);
        }

        bool byOwner = scene.Owner && Tariff.Price(scene, Clairvoyant.Check(true)) <= Tariff.Price(scene, Clairvoyant.Check(false)) + (visit.OnSite ? 0 : scene.Travel);
        visit.Do(Clairvoyant.Check(byOwner));
        return visit;
    }

    private static string[] Names(IReadOnlyList<Trouble> left) => [.. Judge.NamesOf(left).Where(name => name.Length > 0)];

    private static double Cents(double money) => Math.Round(money, 2);
}
