using Swardloop.Workshop.Api;

namespace Swardloop.Workshop.Records;

/// <summary>Which role may write which kind of record. The page hides by it what the server refuses by it.</summary>
public static class RecordRights
{
    /// <summary>Whether a role may make and change records of a kind.</summary>
    public static bool MayWrite(Role role, RecordKind kind) => role switch
    {
        Role.Principal => true,
        Role.Technician => kind is not (RecordKind.Rates or RecordKind.Workshop),
        Role.Desk => kind is RecordKind.Owner or RecordKind.Yard or RecordKind.Case or RecordKind.Observation or RecordKind.Visit or RecordKind.Photo
            or RecordKind.OwnerLink,
        _ => false,
    };
}
