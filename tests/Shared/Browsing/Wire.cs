using System.Net;
using System.Net.Sockets;

namespace Valvewright.Tests.Browsing;

/// <summary>A wire between browsers and a server on which bytes are counted: everything that is sent, by the page and by its service
/// worker, headers with it.</summary>
internal sealed class Wire : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly Uri server;
    private readonly CancellationTokenSource cut = new();
    private readonly Task listening;
    private long down;

    /// <summary>Lays one to a server.</summary>
    public Wire(Uri server)
    {
        this.server = server;
        listener.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}");
        listening = Listen();
    }

    /// <summary>Where browsers go instead of to the server.</summary>
    public Uri Address { get; }

    /// <summary>Bytes that came down from the server so far.</summary>
    public long Down => Interlocked.Read(ref down);

    public async ValueTask DisposeAsync()
    {
        await cut.CancelAsync();
        listener.Dispose();
        await listening;
        cut.Dispose();
    }

    private async Task Listen()
    {
        List<Task> open = [];
        try
        {
            while (true)
            {
                open.Add(Carry(await listener.AcceptTcpClientAsync(cut.Token)));
            }
        }
        catch (Exception end) when (end is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            await Task.WhenAll(open);
        }
    }

    private async Task Carry(TcpClient browser)
    {
        using TcpClient near = browser;
        using TcpClient far = new();
        try
        {
            await far.ConnectAsync(server.Host, server.Port, cut.Token);
            await Task.WhenAny(Copy(near, far, _ => { }), Copy(far, near, n => Interlocked.Add(ref down, n)));
        }
        catch (Exception end) when (end is OperationCanceledException or SocketException or IOException)
        {
            // Either end has hung up.
        }
    }

    private async Task Copy(TcpClient from, TcpClient to, Action<int> count)
    {
        byte[] buffer = new byte[64 * 1024];
        NetworkStream source = from.GetStream(), target = to.GetStream();
        for (int n; (n = await source.ReadAsync(buffer, cut.Token)) > 0;)
        {
            count(n);
            await target.WriteAsync(buffer.AsMemory(0, n), cut.Token);
        }
    }
}
