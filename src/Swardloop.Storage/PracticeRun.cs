namespace Swardloop.Storage;

/// <summary>One practice yard of a person. Level and seed make the yard, the steps what was seen in it. What tells of the truth is kept here and
/// leaves the server only when it is over.</summary>
public sealed class PracticeRun
{
    /// <summary>The practice.</summary>
    public Guid Id { get; set; }

    /// <summary>Whose it is.</summary>
    public Guid Account { get; set; }

    /// <summary>How hard, by its name.</summary>
    public string Level { get; set; } = "";

    /// <summary>What the yard is made from.</summary>
    public long Seed { get; set; }

    /// <summary>When it was begun, UTC.</summary>
    public DateTimeOffset StartedAt { get; set; }

    /// <summary>When it was over, UTC; null while it goes on.</summary>
    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>Steps asked for, a JSON array.</summary>
    public string Steps { get; set; } = "[]";

    /// <summary>How many; whoever adds one changes it from the number that was read.</summary>
    public int StepCount { get; set; }

    /// <summary>Money spent.</summary>
    public double Money { get; set; }

    /// <summary>Minutes of whoever did the steps.</summary>
    public double Minutes { get; set; }

    /// <summary>Whether the mower was left running; null before the end, like what follows.</summary>
    public bool? Cured { get; set; }

    /// <summary>Money, and the printed card's where the mower was left broken.</summary>
    public double? Score { get; set; }

    /// <summary>What the printed card spends.</summary>
    public double? CardMoney { get; set; }

    /// <summary>What is spent by who knows cause and place.</summary>
    public double? KnownMoney { get; set; }

    /// <summary>What the advice spends; null until its way was played.</summary>
    public double? EngineMoney { get; set; }

    /// <summary>The advice's way so far, a JSON object; null before the first step.</summary>
    public string? Engine { get; set; }
}
