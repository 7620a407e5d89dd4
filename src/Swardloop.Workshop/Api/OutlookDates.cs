namespace Swardloop.Workshop.Api;

/// <summary>When something is lost, nine in ten. A date that is null lies beyond twenty years from the last reading; one at the first reading means then or earlier.</summary>
/// <param name="Low">One in twenty is earlier.</param>
/// <param name="Median">As likely earlier as later.</param>
/// <param name="High">One in twenty is later.</param>
public sealed record OutlookDates(DateOnly? Low, DateOnly? Median, DateOnly? High);
