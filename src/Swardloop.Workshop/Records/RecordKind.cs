using System.Text.Json.Serialization;

namespace Swardloop.Workshop.Records;

/// <summary>What a record of the workshop is about. Its fields stand in <see cref="RecordFields"/>.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<RecordKind>))]
public enum RecordKind
{
    /// <summary>A person who owns yards.</summary>
    Owner,

    /// <summary>A lawn with its loop.</summary>
    Yard,

    /// <summary>From a complaint to a running mower.</summary>
    Case,

    /// <summary>One test made or repair done, in a case or for a yard's history. Corrected by another one, struck out, never erased.</summary>
    Observation,

    /// <summary>A planned or finished drive to a yard.</summary>
    Visit,

    /// <summary>A meter or tool of the workshop.</summary>
    Instrument,

    /// <summary>Wire in stock.</summary>
    Conductor,

    /// <summary>A kind of station and mower with its bench trial.</summary>
    Profile,

    /// <summary>What the workshop charges. There is one: <see cref="Ids.Rates"/>.</summary>
    Rates,

    /// <summary>From what a machine shows to a plain observation.</summary>
    Code,

    /// <summary>A photo; its bytes travel beside the record.</summary>
    Photo,

    /// <summary>An owner's way in to one case, without an account: an address with a secret of which only the hash is kept.</summary>
    OwnerLink,

    /// <summary>The workshop itself: name, telephone, language. There is one: <see cref="Ids.Workshop"/>.</summary>
    Workshop,
}
