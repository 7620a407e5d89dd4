namespace Swardloop.Core.Budget;

/// <summary>What a loop's reading says, judged against the wire that is there.</summary>
public enum LoopVerdict
{
    /// <summary>As expected, within what wire, temperature and meter leave open.</summary>
    Healthy,

    /// <summary>More than expected, by little: read again, keep the number.</summary>
    Watch,

    /// <summary>So much more that something in the loop is at fault, though the mower may still run.</summary>
    Investigate,

    /// <summary>So much more that mowers commonly fail.</summary>
    Faulty,

    /// <summary>Less than the wire can measure: two places touch, or the file's length or wire is not what lies there.</summary>
    BelowExpected,
}
