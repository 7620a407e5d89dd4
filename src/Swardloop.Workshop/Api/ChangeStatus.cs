using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>What became of a change that was handed in.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<ChangeStatus>))]
public enum ChangeStatus
{
    /// <summary>It is written to the disk. This, and only this and <see cref="Conflict"/>, lets a device forget its own copy.</summary>
    Kept,

    /// <summary>It is written, and a field now holds two values that did not know of each other.</summary>
    Conflict,

    /// <summary>It makes no sense or is not allowed, now and whenever it is sent again; the device keeps it and shows why.</summary>
    Refused,
}
