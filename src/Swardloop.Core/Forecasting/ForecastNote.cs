namespace Swardloop.Core.Forecasting;

/// <summary>What a person should know about a forecast.</summary>
public enum ForecastNote
{
    /// <summary>A reading differs from the others by more than meter, temperature and weather allow.</summary>
    OddReading,

    /// <summary>From this reading on the loop measures much less: it was mended, and what was read before is of another state.</summary>
    Mended,

    /// <summary>From this reading on the wire is mended or renewed, as was written down: what was read before is of another state.</summary>
    MendRecorded,

    /// <summary>This reading was accepted by a signature: it is the baseline, and what was read before does not count.</summary>
    Accepted,

    /// <summary>A reading taken just after the wire was moved is no reading of the wire in rest.</summary>
    Moved,

    /// <summary>The ground's temperature was taken from date and latitude for some readings.</summary>
    TemperatureByDate,

    /// <summary>The yard has no latitude: the temperature by date is rougher still.</summary>
    NoLatitude,

    /// <summary>Readings in wet ground were compared apart from those in dry ground.</summary>
    WetApart,

    /// <summary>Fewer than three readings: what is stated of all loops speaks more than this one.</summary>
    FewReadings,

    /// <summary>The weakest spot is lost already.</summary>
    AlreadyLost,

    /// <summary>Even a sound loop does not reach the weakest spot: the layout, not the wire.</summary>
    Layout,

    /// <summary>The wire's material or area is not known.</summary>
    ConductorUnknown,

    /// <summary>The loop measures less than its wire can: the file's wire or length is not what lies there, or two places touch.</summary>
    BelowSound,
}
