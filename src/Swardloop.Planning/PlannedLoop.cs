using Swardloop.Core.Budget;
using Swardloop.Core.Reach;
using Swardloop.Model.Yards;

namespace Swardloop.Planning;

/// <summary>One way to lay a loop.</summary>
public sealed record PlannedLoop
{
    /// <summary>The yard as it would be.</summary>
    public required YardFile Yard { get; init; }

    /// <summary>How often the wire goes round in the same slit.</summary>
    public required int Turns { get; init; }

    /// <summary>Its budget when new.</summary>
    public required LoopBudget Budget { get; init; }

    /// <summary>What the loop may measure at the end of its life (Ω).</summary>
    public required double EndOfLifeOhms { get; init; }

    /// <summary>The weakest place of the lawn.</summary>
    public required WeakestPlace Weakest { get; init; }

    /// <summary>Margin there at the end of the loop's life (dB).</summary>
    public required double WeakestMarginDecibels { get; init; }

    /// <summary>Resistance that the new loop may gain until that place falls silent (Ω); null: no loop would do.</summary>
    public required double? OhmsToSpare { get; init; }

    /// <summary>Whether the lawn is heard everywhere with the margin asked for, at the end of the loop's life.</summary>
    public required bool IsFull { get; init; }

    /// <summary>What to buy.</summary>
    public required IReadOnlyList<PlannedPart> Parts { get; init; }

    /// <summary>Metres of slit.</summary>
    public required double SlitMetres { get; init; }

    /// <summary>Crossings of paving.</summary>
    public required int PavedCrossings { get; init; }

    /// <summary>Work (minutes).</summary>
    public required double Minutes { get; init; }

    /// <summary>Work and parts, in the workshop's currency.</summary>
    public required double Cost { get; init; }

    /// <summary>What a person should know of it, in English.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}
