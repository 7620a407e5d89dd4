namespace Swardloop.Workshop.Api;

/// <summary>The workshop's mail server as it is shown: never with its password.</summary>
/// <param name="Host">Its name or address; empty when none is set.</param>
/// <param name="Port">Its port.</param>
/// <param name="Security">How the way to it is kept from others.</param>
/// <param name="User">Who signs in there; null for nobody.</param>
/// <param name="From">The address that letters come from.</param>
/// <param name="HasPassword">Whether a password is kept.</param>
public sealed record MailSettings(string Host, int Port, MailSecurity Security, string? User, string From, bool HasPassword);

/// <summary>The mail server as it is set.</summary>
/// <param name="Host">Its name or address.</param>
/// <param name="Port">Its port.</param>
/// <param name="Security">How the way to it is kept from others.</param>
/// <param name="User">Who signs in there; null for nobody.</param>
/// <param name="From">The address that letters come from.</param>
/// <param name="Password">The password; null: the one that is kept stays, as long as server and user stay.</param>
public sealed record NewMailSettings(string Host, int Port, MailSecurity Security, string? User, string From, string? Password);

/// <summary>Whether sheets can be sent from here.</summary>
/// <param name="IsSet">Whether a mail server is set.</param>
/// <param name="From">The address that letters come from; null when none is set.</param>
public sealed record MailState(bool IsSet, string? From);
