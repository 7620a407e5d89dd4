using System.Globalization;
using System.Net.Sockets;

namespace Swardloop.Tests.Reference;

/// <summary>A port for a server that is started on it later, or once more. It lies below those that the system hands out: there any other process's
/// connection may take it meanwhile, and whoever waits for the server by connecting may be given the same port and meet himself.</summary>
internal static class FreePort
{
    private const int Lowest = 20_000, Default = 32_768;
    private static int _next = Lowest + Random.Shared.Next(10_000);

    /// <summary>A port of the loopback address on which nothing listens.</summary>
    public static int Next()
    {
        int handedOut = HandedOutFrom();
        for (int attempt = 0; attempt < 200; attempt++)
        {
            int port = Lowest + (Interlocked.Increment(ref _next) % (handedOut - Lowest));
            using TcpListener listener = new(System.Net.IPAddress.Loopback, port);
            try
            {
                listener.Start();
                return port;
            }
            catch (SocketException)
            {
                // Somebody's.
            }
        }

        throw new InvalidOperationException("No free port was found.");
    }

    // Linux says from where on it hands ports out; another system's choice lies higher.
    private static int HandedOutFrom()
    {
        const string Range = "/proc/sys/net/ipv4/ip_local_port_range";
        int from = File.Exists(Range) ? int.Parse(File.ReadAllText(Range).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)[0], CultureInfo.InvariantCulture) : Default;
        return from > Lowest + 1000 ? from : Default;
    }
}
