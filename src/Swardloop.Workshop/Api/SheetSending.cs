using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>Asks for a sheet to be sent.</summary>
/// <param name="Id">UUID version 7 of this sending: asked for again with the same, it is not sent again.</param>
/// <param name="To">To which address.</param>
/// <param name="Language">The sheet's language, <c>en</c> or <c>de</c>.</param>
/// <param name="Units"><c>metric</c> or <c>feet</c>.</param>
public sealed record SheetSending(Guid Id, string To, string Language, string Units);

/// <summary>What became of a sending.</summary>
/// <param name="IsSent">Whether the mail server took the letter.</param>
/// <param name="Fault">Why not; null when it was sent.</param>
/// <param name="Answer">What the mail server said, or what kept us from asking it.</param>
public sealed record SheetSent(bool IsSent, MailFault? Fault, string Answer);

/// <summary>Why a letter was not sent.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<MailFault>))]
public enum MailFault
{
    /// <summary>No mail server is set.</summary>
    NotSet,

    /// <summary>The server cannot be reached, or its certificate is not to be trusted.</summary>
    Unreachable,

    /// <summary>It does not take user and password.</summary>
    SignIn,

    /// <summary>It does not take the letter or the address.</summary>
    Refused,
}
