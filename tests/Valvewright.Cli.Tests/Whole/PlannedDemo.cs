using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Whole;

/// <summary>A folder like a fresh checkout, with one demo site planned; shared by all tests of a class.</summary>
public sealed class PlannedDemo : IAsyncLifetime, IDisposable
{
    private static readonly string[] Sites = ["quarry-hill", "thin-creek"];
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-whole-").FullName;

    /// <summary>What <c>plan demo/quarry-hill --from 2026-04-01</c> printed.</summary>
    internal Command.Outcome Plan { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        foreach (string file in Sites.Select(s => $"demo/{s}/site.yaml").Append("demo/quarry-hill/measured.yaml")
            .Concat(Directory.GetFiles(Path.Combine(Checkout.Root, "reference", "weather"), "*.csv")
            .Select(f => Path.GetRelativePath(Checkout.Root, f))))
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(folder, file))!);
            File.Copy(Path.Combine(Checkout.Root, file), Path.Combine(folder, file));
        }

        await File.WriteAllTextAsync(Path.Combine(folder, "reading.txt"), "A: starts 5:00; days MWF; stations 1=10 2=12\n");
        Directory.CreateDirectory(Path.Combine(folder, "hand", "quarry-hill", "out"));
        foreach (string file in new[] { "site.yaml", "measured.yaml" })
        {
            File.Copy(Path.Combine(folder, "demo", "quarry-hill", file), Path.Combine(folder, "hand", "quarry-hill", file));
        }

        File.Copy(
            Path.Combine(Checkout.Root, "tests", "Shared", "PlansByHand", "quarry-hill.json"),
            Path.Combine(folder, "hand", "quarry-hill", "out", "plan.json"));
        await File.WriteAllTextAsync(Path.Combine(folder, "done.csv"), "site,controller,date,percent\n"
            + string.Concat(new[] { "Gate", "Terrace" }.Select(c => $"Quarry Hill Memorial Garden,{c},2026-03-01,60\n")));
        await File.WriteAllTextAsync(Path.Combine(folder, "garbled.txt"), "hello there\n");
        Plan = await Run(PlanLine);
    }

    /// <summary>The command line that the demo site is planned with.</summary>
    internal const string PlanLine = "plan demo/quarry-hill --from 2026-04-01";

    public Task DisposeAsync() => Task.CompletedTask;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>Writes a file there.</summary>
    internal Task Write(string name, string text) => File.WriteAllTextAsync(Path.Combine(folder, name), text);

    /// <summary>Runs a command line there; words with blanks stand in quotes.</summary>
    internal Task<Command.Outcome> Run(string line) =>
        Command.Run([.. line.Split('"')
            .SelectMany((part, i) => i % 2 == 1 ? [part] : part.Split(' ', StringSplitOptions.RemoveEmptyEntries))], folder);
}
