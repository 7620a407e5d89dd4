namespace Swardloop.Core.Diagnosis;

/// <summary>What stands at a place along the wire.</summary>
internal enum PlaceKind
{
    Terminal,
    Joint,
    Span,
}

/// <summary>One place where a fault may be: a point (terminal, joint) or a short piece of wire.</summary>
/// <param name="Kind">What stands there.</param>
/// <param name="FromMetres">Start (m from A).</param>
/// <param name="ToMetres">End (m); equal to the start for a point.</param>
internal readonly record struct Place(PlaceKind Kind, double FromMetres, double ToMetres)
{
    public double AtMetres => (FromMetres + ToMetres) / 2;

    public double LengthMetres => ToMetres - FromMetres;

    public bool IsPoint => Kind != PlaceKind.Span;

    /// <summary>Number of the guide wire that it lies on, from 1, its metres from the station; 0: the loop, its metres from A.</summary>
    public int Guide { get; init; }
}
