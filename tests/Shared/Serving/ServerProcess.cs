using System.Diagnostics;

namespace Valvewright.Tests.Serving;

/// <summary>The built command, serving a store as a process of its own.</summary>
internal sealed class ServerProcess : IDisposable
{
    private readonly Process process;

    private ServerProcess(Process process) => this.process = process;

    /// <summary>Speaks to it; null where it was not waited for.</summary>
    public HttpClient? Client { get; private set; }

    /// <summary>Starts it, and goes on at once.</summary>
    /// <param name="store">The store's file.</param>
    /// <param name="page">The folder of the page; null: as the command finds it.</param>
    /// <param name="port">The port; 0 takes a free one.</param>
    public static ServerProcess Begin(string store, string? page = null, int port = 0) => new(Process.Start(
        new ProcessStartInfo(
            "dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), "serve", "--store", store, "--port", $"{port}",
                .. page is null ? (string[])[] : ["--page", page]])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!);

    /// <summary>Starts one that only works, for the server of a store, and goes on at once.</summary>
    public static ServerProcess BeginWork(string store) => new(Process.Start(
        new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), "work", "--join", store])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!);

    /// <summary>Starts one that only works, and waits until it does.</summary>
    public static async Task<ServerProcess> StartWork(string store)
    {
        ServerProcess worker = BeginWork(store);
        return await worker.process.StandardOutput.ReadLineAsync() is not null ? worker
            : throw new InvalidOperationException($"The worker did not start: {await worker.process.StandardError.ReadToEndAsync()}");
    }

    /// <summary>Memory that it has in use, MB.</summary>
    public double MemoryMb
    {
        get
        {
            process.Refresh();
            return process.WorkingSet64 / 1e6;
        }
    }

    /// <summary>Processor time that it has used.</summary>
    public TimeSpan ProcessorTime
    {
        get
        {
            process.Refresh();
            return process.TotalProcessorTime;
        }
    }

    /// <summary>Starts it, and waits until it listens.</summary>
    public static async Task<ServerProcess> Start(string store, string? page = null, int port = 0)
    {
        ServerProcess server = Begin(store, page, port);
        string? line = await server.process.StandardOutput.ReadLineAsync();
        if (line?.LastIndexOf("http", StringComparison.Ordinal) is not (>= 0 and { } at))
        {
            throw new InvalidOperationException($"The server did not start: {line}{await server.process.StandardError.ReadToEndAsync()}");
        }

        server.Client = new HttpClient { BaseAddress = new Uri(line[at..]), Timeout = TimeSpan.FromSeconds(60) };
        return server;
    }

    /// <summary>Ends it with signal 9, as a power cut would: it gets no chance to finish anything.</summary>
    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            Kill();
        }

        Client?.Dispose();
        process.Dispose();
    }
}
