namespace Swardloop.Drawing;

/// <summary>What the engine can be asked for.</summary>
internal enum EngineTask
{
    /// <summary>The advice for a case, as the command line's bytes.</summary>
    Advise,

    /// <summary>What each probe of a case ruled out.</summary>
    Trail,

    /// <summary>Which cause a mended case had.</summary>
    Taught,

    /// <summary>The signal map of a yard.</summary>
    Map,

    /// <summary>The signal map of a yard with a fault.</summary>
    FaultMap,
}
