using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>How the way to a mail server is kept from others.</summary>
[JsonConverter(typeof(KebabCaseEnumConverter<MailSecurity>))]
public enum MailSecurity
{
    /// <summary>Begun in plain and then encrypted, usually at port 587.</summary>
    StartTls,

    /// <summary>Encrypted from the first byte on, usually at port 465.</summary>
    Tls,

    /// <summary>Not at all: to a server on the same machine, or without a password.</summary>
    None,
}
