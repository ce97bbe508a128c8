using System.Diagnostics;

namespace Valvewright.Cli.Tests;

/// <summary>Runs the built command as a process, as a person does.</summary>
internal static class Command
{
    /// <summary>What a run left behind.</summary>
    public sealed record Outcome(int ExitCode, string Output, string Error);

    /// <summary>Runs it to its end, in <paramref name="folder"/> or where the tests run.</summary>
    public static async Task<Outcome> Run(string[] arguments, string? folder = null)
    {
        using Process process = Process.Start(StartOf(arguments, folder))!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return new Outcome(process.ExitCode, await output, await error);
    }

    /// <summary>Runs it until standard error says something, then does what Ctrl-C does.</summary>
    public static async Task<Outcome> Interrupt(string[] arguments, string whenErrorSays = "", string? whenOutputSays = null)
    {
        using Process process = Process.Start(StartOf(arguments, null))!;
        (StreamReader watched, StreamReader other) = whenOutputSays is null ? (process.StandardError, process.StandardOutput)
            : (process.StandardOutput, process.StandardError);
        Task<string> rest = other.ReadToEndAsync();
        string seen = "";
        while (await watched.ReadLineAsync() is { } line)
        {
            seen += line + "\n";
            if (line.Contains(whenOutputSays ?? whenErrorSays, StringComparison.Ordinal))
            {
                using Process kill = Process.Start("sh", ["-c", $"kill -INT {process.Id}"]);
                await kill.WaitForExitAsync();
                break;
            }
        }

        seen += await watched.ReadToEndAsync();
        await process.WaitForExitAsync();
        return whenOutputSays is null ? new Outcome(process.ExitCode, await rest, seen)
            : new Outcome(process.ExitCode, seen, await rest);
    }

    /// <remarks>A shell in the background hands on an ignored SIGINT; the command under test must start with the usual one.</remarks>
    private static ProcessStartInfo StartOf(string[] arguments, string? folder) =>
        new("env", ["--default-signal=INT", "dotnet", Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder ?? AppContext.BaseDirectory,
        };
}
