namespace Swardloop.Core.Circuits;

/// <summary>Why a network has no single answer.</summary>
public enum SingularReason
{
    /// <summary>Nothing that conducts joins the node to the reference, so its voltage is undefined.</summary>
    Floating,

    /// <summary>A ring of parts without resistance whose voltages do not add up to zero: the ring's current has no limit.</summary>
    ConflictingSources,

    /// <summary>A ring of parts without resistance or voltage: how current divides in it is undefined.</summary>
    UndividedCurrent,

    /// <summary>The equations determine the node's voltage so weakly that no digit of an answer would be sure: a resonance without loss.</summary>
    IllConditioned,
}
