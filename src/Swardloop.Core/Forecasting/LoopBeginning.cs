namespace Swardloop.Core.Forecasting;

/// <summary>Why a reading is the first of a state of its loop.</summary>
public enum LoopBeginning
{
    /// <summary>It is not: the loop lies as it lay at the reading before.</summary>
    None,

    /// <summary>The wire was mended or renewed just before.</summary>
    Mended,

    /// <summary>The loop was accepted, by a signature, with this reading: the baseline for all later ones.</summary>
    Accepted,
}
