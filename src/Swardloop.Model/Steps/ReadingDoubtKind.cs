namespace Swardloop.Model.Steps;

/// <summary>Why a number is doubted.</summary>
public enum ReadingDoubtKind
{
    /// <summary>More ohms than any loop.</summary>
    TooManyOhms,

    /// <summary>Farther than the lawn.</summary>
    TooFar,
}
