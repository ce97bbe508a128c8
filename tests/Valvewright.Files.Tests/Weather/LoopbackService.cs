using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Valvewright.Files.Tests.Weather;

/// <summary>A service on this machine that answers each request with the next answer it was given, byte for byte, well-formed or
/// not.</summary>
internal sealed class LoopbackService : IDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource stop = new();
    private readonly ConcurrentQueue<Answer> answers = new();
    private readonly ConcurrentQueue<string> requests = new();
    private readonly Task serving;

    public LoopbackService()
    {
        listener.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/daily");
        serving = Task.Run(ServeAsync);
    }

    public Uri Address { get; }

    /// <summary>First lines of the requests so far.</summary>
    public IReadOnlyCollection<string> Requests => requests;

    public LoopbackService Then(
        int status, string body, string type = "application/json", string headers = "", int? bytesSent = null, TimeSpan silence = default)
    {
        answers.Enqueue(new Answer(status, Encoding.UTF8.GetBytes(body), type, headers, bytesSent, silence));
        return this;
    }

    public void Dispose()
    {
        stop.Cancel();
        listener.Stop();
        serving.Wait(TimeSpan.FromSeconds(5));
        stop.Dispose();
        listener.Dispose();
    }

    private async Task ServeAsync()
    {
        try
        {
            while (!stop.IsCancellationRequested)
            {
                using TcpClient client = await listener.AcceptTcpClientAsync(stop.Token);
                await AnswerAsync(client.GetStream());
            }
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            // Stopped.
        }
    }

    private async Task AnswerAsync(NetworkStream stream)
    {
        try
        {
            byte[] buffer = new byte[8192];
            StringBuilder request = new();
            while (!request.ToString().Contains("\r\n\r\n", StringComparison.Ordinal))
            {
                int count = await stream.ReadAsync(buffer, stop.Token);
                if (count == 0)
                {
                    return;
                }

                request.Append(Encoding.ASCII.GetString(buffer, 0, count));
            }

            requests.Enqueue(request.ToString().Split("\r\n")[0]);
            Answer answer = answers.TryDequeue(out Answer? next) ? next
                : new Answer(500, "no answer was given"u8.ToArray(), "text/plain", "", null, default);
            await Task.Delay(answer.Silence, stop.Token);
            string head =
                $"HTTP/1.1 {answer.Status} Said\r\nContent-Type: {answer.Type}\r\nContent-Length: {answer.Body.Length}\r\nConnection: close\r\n{answer.Headers}\r\n";
            await stream.WriteAsync(Encoding.ASCII.GetBytes(head), stop.Token);
            await stream.WriteAsync(answer.Body.AsMemory(0, answer.BytesSent ?? answer.Body.Length), stop.Token);
        }
        catch (IOException)
        {
            // The asker hung up; the next one is served.
        }
    }

    private sealed record Answer(int Status, byte[] Body, string Type, string Headers, int? BytesSent, TimeSpan Silence);
}
