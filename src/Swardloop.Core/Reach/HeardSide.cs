namespace Swardloop.Core.Reach;

/// <summary>Which side of the wire a mower takes itself to be on.</summary>
public enum HeardSide
{
    /// <summary>It hears too little to tell.</summary>
    Silent,

    /// <summary>Inside the loop.</summary>
    Inside,

    /// <summary>Outside the loop.</summary>
    Outside,
}
