namespace Swardloop.Core.Budget;

/// <summary>What the rule of thumb says of a reading, blind to the wire that is there. Common practice, no source.</summary>
public enum RuleOfThumbVerdict
{
    /// <summary>About 1 Ω per 100 m or less.</summary>
    Fine,

    /// <summary>One to two ohms per 100 m, or 10 to 15 Ω in all.</summary>
    Doubtful,

    /// <summary>More than two ohms per 100 m, or more than 15 Ω in all.</summary>
    AtFault,
}
