using System.Net;
using System.Net.Sockets;

namespace Swardloop.Server.Accounts;

/// <summary>From where a request comes, as limits count it.</summary>
internal static class ClientAddress
{
    private const int BytesOfPlace = 8;

    /// <summary>The address; of IPv6 the first 64 bits, since every household has all addresses that begin with them (RFC 6177, 2).</summary>
    public static string Of(HttpContext context)
    {
        if (context.Connection.RemoteIpAddress is not { } address)
        {
            return "";
        }

        if (address.IsIPv4MappedToIPv6)
        {
            address = address.MapToIPv4();
        }

        return address.AddressFamily == AddressFamily.InterNetworkV6
            ? $"{new IPAddress([.. address.GetAddressBytes()[..BytesOfPlace], .. new byte[BytesOfPlace]])}/64"
            : address.ToString();
    }
}
