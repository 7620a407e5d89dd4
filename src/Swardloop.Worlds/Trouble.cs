namespace Swardloop.Worlds;

/// <summary>One thing wrong in a simulated yard. Places are metres along the drawn wire from terminal A.</summary>
/// <param name="Cause">Its name in the contract.</param>
internal sealed record Trouble(string Cause)
{
    /// <summary>Where, in the wire.</summary>
    public double? At { get; init; }

    /// <summary>The other place of a leaking pair.</summary>
    public double? Second { get; init; }

    /// <summary>In series, or to earth for leaks (Ω).</summary>
    public double Ohms { get; init; }

    /// <summary>Whether it sits in a true joint or a terminal.</summary>
    public bool AtJoint { get; init; }

    /// <summary>Whether looking there shows it.</summary>
    public bool Shows { get; init; }

    /// <summary>Whether the mower minds it.</summary>
    public bool Harmful { get; init; } = true;

    /// <summary>How a mower with a fault of its own behaves: <c>locked</c> (does not start: no reading of anything), <c>stops</c> (starts, reads the
    /// wire, gives up later) or <c>silent</c> (starts and says there is no signal).</summary>
    public string Way { get; init; } = "";

    /// <summary>Of an unsteady contact: open in wet weather rather than in dry.</summary>
    public bool OpensWet { get; init; }

    /// <summary>Of a charging fault: the battery, not the contacts.</summary>
    public bool Battery { get; init; }

    /// <summary>In the wire, and in series with it.</summary>
    public bool Series => Cause is "series-resistance" or "open" or "unsteady";
}
