using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>What the watch list can say of a yard.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<WatchState>))]
public enum WatchState
{
    /// <summary>Three readings or more count: dates, or none within twenty years.</summary>
    Dated,

    /// <summary>Fewer than three readings count: the dates rest on what is stated of all loops.</summary>
    Few,

    /// <summary>The wire was mended after the last reading.</summary>
    MendedSince,

    /// <summary>The loop was never measured.</summary>
    Unmeasured,

    /// <summary>The last reading showed a broken loop.</summary>
    Broken,

    /// <summary>Not even a sound loop reaches 95 % of the lawn: the layout, not the wire.</summary>
    Layout,

    /// <summary>The yard has no drawing that can be computed.</summary>
    NoDrawing,
}
