using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Swardloop.Bench.Serve;

/// <summary>Asks one address again and again over connections that stay open. As little work as it can be, so that what is measured is the answering.</summary>
/// <param name="server">The server.</param>
/// <param name="path">What is asked for.</param>
/// <param name="cookie">The cookie sent along.</param>
internal sealed class Load(Uri server, string path, string cookie)
{
    private volatile byte[] _request = Request(server, path, cookie);

    /// <summary>Each connection asks as soon as it has its answer.</summary>
    /// <returns>Answers per second.</returns>
    public async Task<double> MeasureAsync(int connections, TimeSpan time)
    {
        long start = Stopwatch.GetTimestamp();
        int[] counts = await Task.WhenAll(Enumerable.Range(0, connections).Select(_ => Task.Run(async () =>
        {
            using Socket socket = await OpenAsync();
            byte[] room = new byte[1 << 18];
            int count = 0;
            while (Stopwatch.GetElapsedTime(start) < time)
            {
                await AskAsync(socket, room);
                count++;
            }

            return count;
        })));
        return counts.Sum() / Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    /// <summary>Asks at a steady rate, whether or not earlier answers are there: who has to wait for a connection waits from the moment the read was due.</summary>
    /// <returns>Waits (ms).</returns>
    public async Task<double[]> PacedAsync(int connections, double perSecond, TimeSpan time)
    {
        int all = (int)(perSecond * time.TotalSeconds), next = -1;
        double[] waits = new double[all];
        long start = Stopwatch.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, connections).Select(_ => Task.Run(async () =>
        {
            using Socket socket = await OpenAsync();
            byte[] room = new byte[1 << 18];
            for (int i = Interlocked.Increment(ref next); i < all; i = Interlocked.Increment(ref next))
            {
                double due = i * 1000 / perSecond, ahead = due - Stopwatch.GetElapsedTime(start).TotalMilliseconds;
                if (ahead > 0)
                {
                    await Task.Delay(TimeSpan.FromMilliseconds(ahead)); // wakes up to a millisecond late, which counts as waiting
                }

                await AskAsync(socket, room);
                waits[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds - due;
            }
        })));
        return waits;
    }

    private static byte[] Request(Uri server, string path, string cookie) => Encoding.ASCII.GetBytes(
        $"GET {path} HTTP/1.1\r\nHost: {server.Authority}\r\nCookie: {cookie}\r\nAccept: application/json\r\n\r\n");

    private async Task<Socket> OpenAsync()
    {
        Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        await socket.ConnectAsync(IPAddress.Loopback, server.Port);
        return socket;
    }

    private async Task AskAsync(Socket socket, byte[] room)
    {
        await socket.SendAsync(_request);
        int have = 0, end;
        while ((end = room.AsSpan(0, have).IndexOf("\r\n\r\n"u8)) < 0)
        {
            have += await ReadAsync(socket, room, have);
        }

        string head = Encoding.ASCII.GetString(room, 0, end);
        if (!head.StartsWith("HTTP/1.1 200", StringComparison.Ordinal))
        {
            throw new InvalidOperationException($"{path} answered: {head}");
        }

        // As a browser does: the server renews the cookie now and then, after it has looked the account up.
        if (head.IndexOf("\r\nSet-Cookie: ", StringComparison.OrdinalIgnoreCase) is var renewed and > 0)
        {
            _request = Request(server, path, head[(renewed + "\r\nSet-Cookie: ".Length)..].Split(';')[0]);
        }

        int at = head.IndexOf("Content-Length:", StringComparison.OrdinalIgnoreCase) + "Content-Length:".Length;
        int length = int.Parse(head.AsSpan(at).Trim().ToString().Split('\r')[0], System.Globalization.CultureInfo.InvariantCulture) + end + 4;
        while (have < length)
        {
            have += await ReadAsync(socket, room, have);
        }
    }

    private static async Task<int> ReadAsync(Socket socket, byte[] room, int have)
    {
        int read = await socket.ReceiveAsync(room.AsMemory(have));
        return read > 0 ? read : throw new IOException("The server hung up.");
    }
}
