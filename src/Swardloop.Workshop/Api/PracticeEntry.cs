namespace Swardloop.Workshop.Api;

/// <summary>One practice yard of a person, as the list shows it. What tells of the truth is null until it is over.</summary>
/// <param name="Id">The practice.</param>
/// <param name="Level">How hard.</param>
/// <param name="StartedAt">When it was begun.</param>
/// <param name="EndedAt">When it was over; null while it goes on.</param>
/// <param name="Steps">Steps done.</param>
/// <param name="Money">Spent, travel included, in the currency of the yard's rates.</param>
/// <param name="Minutes">Of whoever did the steps.</param>
/// <param name="Cured">Whether the mower was left running.</param>
/// <param name="Score">Money, and the printed card's on top where the mower was left broken.</param>
/// <param name="CardMoney">What the printed card would have spent.</param>
/// <param name="KnownMoney">What somebody would have spent who knew cause and place.</param>
/// <param name="EngineMoney">What the advice would have spent; null until its way was played.</param>
public sealed record PracticeEntry(
    Guid Id, PracticeLevel Level, DateTimeOffset StartedAt, DateTimeOffset? EndedAt, int Steps, double Money, double Minutes,
    bool? Cured, double? Score, double? CardMoney, double? KnownMoney, double? EngineMoney);
