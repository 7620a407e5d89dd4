using System.Buffers;
using System.Buffers.Text;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace Swardloop.Workshop.Owners;

/// <summary>What stands behind <c>/o/</c> in the address that an owner gets: which link it is, and the secret that opens it. The secret is
/// kept nowhere; the link's record holds its hash.</summary>
public sealed class OwnerAddress
{
    /// <summary>Bytes of the secret: 128 bits.</summary>
    public const int SecretBytes = 16;

    private const int IdBytes = 16;
    private readonly byte[] _secret;

    private OwnerAddress(Guid link, byte[] secret) => (Link, _secret) = (link, secret);

    /// <summary>The link's record.</summary>
    public Guid Link { get; }

    /// <summary>What the link's record keeps of the secret: its SHA-256, hexadecimal.</summary>
    public string SecretHash => Convert.ToHexStringLower(SHA256.HashData(_secret));

    /// <summary>A new address.</summary>
    /// <param name="link">The link's record.</param>
    /// <param name="secret">16 bytes from a generator fit for secrets.</param>
    /// <exception cref="ArgumentException">The secret has another length.</exception>
    public static OwnerAddress Make(Guid link, ReadOnlySpan<byte> secret) => secret.Length == SecretBytes
        ? new(link, secret.ToArray())
        : throw new ArgumentException($"Needs {SecretBytes} bytes; got {secret.Length}.", nameof(secret));

    /// <summary>Reads the part of an address behind <c>/o/</c>.</summary>
    public static bool TryRead(string? text, [NotNullWhen(true)] out OwnerAddress? address)
    {
        address = null;
        Span<byte> bytes = stackalloc byte[IdBytes + SecretBytes];
        if (text is null || text.Length != Base64Url.GetEncodedLength(bytes.Length)
            || Base64Url.DecodeFromChars(text, bytes, out _, out int written) != OperationStatus.Done || written != bytes.Length)
        {
            return false;
        }

        address = new(new Guid(bytes[..IdBytes], bigEndian: true), bytes[IdBytes..].ToArray());
        return true;
    }

    /// <summary>Whether the secret is the one whose hash is kept; takes as long for a wrong one as for the right one.</summary>
    public bool Opens(string? keptHash) =>
        keptHash is { Length: 64 } && CryptographicOperations.FixedTimeEquals(
            System.Text.Encoding.ASCII.GetBytes(SecretHash), System.Text.Encoding.ASCII.GetBytes(keptHash));

    /// <summary>The part of the address behind <c>/o/</c>: 43 characters. To be shown to the owner, and to nobody else; never logged.</summary>
    public string ToPath()
    {
        Span<byte> bytes = stackalloc byte[IdBytes + SecretBytes];
        Link.TryWriteBytes(bytes, bigEndian: true, out _);
        _secret.CopyTo(bytes[IdBytes..]);
        return Base64Url.EncodeToString(bytes);
    }

    /// <summary>Says which link, and keeps the secret: safe to log.</summary>
    public override string ToString() => $"owner link {Link}";
}
