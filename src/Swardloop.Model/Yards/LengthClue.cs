namespace Swardloop.Model.Yards;

/// <summary>What is known of the length of a wire that nobody has drawn.</summary>
public enum LengthClue
{
    /// <summary>The length itself.</summary>
    Length,

    /// <summary>The lawn's area.</summary>
    Area,

    /// <summary>The whole wire's capacitance to earth, both ends unplugged.</summary>
    Capacitance,
}
