using Microsoft.AspNetCore.Identity;

namespace Swardloop.Storage.Keeping;

/// <summary>A passkey in a backup. It opens the restored workshop only under the address it was made for: so passkeys are.</summary>
/// <param name="CredentialId">What the browser knows it by.</param>
/// <param name="Data">Its public key, its name and what was said when it was made; nothing of it is secret.</param>
public sealed record KeptPasskey(byte[] CredentialId, IdentityPasskeyData Data);
