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
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder ?? AppContext.BaseDirectory,
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return new Outcome(process.ExitCode, await output, await error);
    }
}
