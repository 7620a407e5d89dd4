namespace Swardloop.Core.Surveying;

/// <summary>Ways in which tapes fail to make a plan.</summary>
public enum SurveyFlawKind
{
    /// <summary>Too few tapes reach the points: they can still be moved without changing any tape.</summary>
    Undetermined,

    /// <summary>The points may lie on either side of a line, and nothing says on which.</summary>
    MirrorImage,

    /// <summary>The tapes reach the points along one line, so that their place across it stays open.</summary>
    InOneLine,

    /// <summary>The adjustment found no place where the tapes agree even roughly.</summary>
    NoAgreement,

    /// <summary>What is said of sides contradicts the tapes.</summary>
    SideContradicted,
}
