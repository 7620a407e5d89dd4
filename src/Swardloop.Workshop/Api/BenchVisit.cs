namespace Swardloop.Workshop.Api;

/// <summary>A visit of the day, or one that is overdue.</summary>
public sealed record BenchVisit(Guid Visit, Guid Yard, Guid? Case, string YardName, string? Address, DateOnly On, string? At, string? Who, double? Minutes);
