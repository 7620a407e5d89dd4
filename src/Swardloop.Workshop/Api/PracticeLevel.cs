using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>How hard a practice yard is.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<PracticeLevel>))]
public enum PracticeLevel
{
    /// <summary>One fault, everything asked is done, nobody errs.</summary>
    Easy,

    /// <summary>As calls come: people err at times, some things cannot be done, now and then there are two faults.</summary>
    Usual,

    /// <summary>Something that is usually so is not: what, is for the learner to find.</summary>
    Hard,
}
