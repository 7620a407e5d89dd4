using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>What a person of the workshop may do.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<Role>))]
public enum Role
{
    /// <summary>Reads everything, changes nothing.</summary>
    Reader,

    /// <summary>Answers calls: owners, yards, cases, observations, visits, links.</summary>
    Desk,

    /// <summary>Like the desk, and instruments, stock, profiles and codes.</summary>
    Technician,

    /// <summary>Owner of the workshop: everything, people, rates, backup and erasing too.</summary>
    Principal,
}
