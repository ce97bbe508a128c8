using System.Diagnostics;
using System.Globalization;
using Valvewright.Tests.Databases;
using Valvewright.Tests.Serving;

namespace Valvewright.Bench;

/// <summary>A server that is treated badly: what it loses is counted, and should be nothing.</summary>
internal static class ServingBenchmark
{
    /// <summary>Options: --kills 200 --seed 1.</summary>
    public static int PowerCut(string[] arguments) => InFolder(async folder =>
    {
        Stopwatch watch = Stopwatch.StartNew();
        CutsOutcome outcome = await PowerCuts
            .Run(folder, Number(arguments, "--kills", 200), Number(arguments, "--seed", 1), step => Console.Error.Write($"\r{step}   "));
        Console.Error.WriteLine();
        Console.WriteLine(
            $"{outcome.Kills} kills, {outcome.BeforeListening} of them before it listened; {outcome.Kept} changes that it said were kept; {outcome.Faults.Count} lost or not whole; {watch.Elapsed.TotalSeconds:0} s");
        return Tell(outcome.Faults);
    });

    /// <summary>Options: --kills 20 --seed 1.</summary>
    public static int DatabaseCut(string[] arguments)
    {
        Stopwatch watch = Stopwatch.StartNew();
        DatabaseCutsOutcome outcome = PostgresCuts.Run(
            Number(arguments, "--kills", 20), Number(arguments, "--seed", 1), step => Console.Error.Write($"\r{step}   "));
        Console.Error.WriteLine();
        Console.WriteLine(
            $"{outcome.Kills} kills; {outcome.Kept} changes kept, {outcome.Faults.Count} lost or not whole; of {outcome.Unanswered} " +
            $"that got no answer, {outcome.KeptUnanswered} were kept all the same; {watch.Elapsed.TotalSeconds:0} s");
        return Tell(outcome.Faults);
    }

    /// <summary>Options: --kills 50 --database-kills 20 --seed 1.</summary>
    public static int SiloCut(string[] arguments)
    {
        Stopwatch watch = Stopwatch.StartNew();
        SiloCutsOutcome outcome = SiloCuts.Run(
            Number(arguments, "--kills", 50), Number(arguments, "--database-kills", 20), Number(arguments, "--seed", 1),
            step => Console.Error.Write($"\r{step}   ")).GetAwaiter().GetResult();
        Console.Error.WriteLine();
        Console.WriteLine(
            $"{outcome.Kills} kills of a server or worker, {outcome.DatabaseKills} of PostgreSQL; {outcome.Jobs} jobs, " +
            $"begun {outcome.Begun} times; {outcome.Faults.Count} lost, not the same or not whole; {watch.Elapsed.TotalSeconds:0} s");
        return Tell(outcome.Faults);
    }

    /// <summary>Options: --people 20 --seconds 60 --seed 1.</summary>
    public static int Crowded(string[] arguments) => InFolder(async folder =>
    {
        Stopwatch watch = Stopwatch.StartNew();
        TimeSpan time = TimeSpan.FromSeconds(Number(arguments, "--seconds", 60));
        CrowdOutcome outcome = await Crowd
            .Run(folder, Number(arguments, "--people", 20), (_, _, _) => watch.Elapsed >= time, Number(arguments, "--seed", 1));
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{outcome.Seconds:0} s: {outcome.Kept} changes of their own kept ({outcome.Kept / outcome.Seconds:0} a second), {outcome.Shared} to the one site that all edit, {outcome.Refused} refused there because somebody was first; {outcome.Faults.Count} lost or not whole"));
        return Tell(outcome.Faults);
    });

    private static int InFolder(Func<string, Task<int>> work)
    {
        string folder = Directory.CreateTempSubdirectory("valvewright-bench-").FullName;
        try
        {
            return work(folder).GetAwaiter().GetResult();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Tell(IReadOnlyList<string> faults)
    {
        foreach (string fault in faults.Take(20))
        {
            Console.WriteLine($"  {fault}");
        }

        return faults.Count == 0 ? 0 : 1;
    }

    internal static int Number(string[] arguments, string name, int usual) =>
        Array.IndexOf(arguments, name) is var at and >= 0 && at + 1 < arguments.Length
            ? int.Parse(arguments[at + 1], CultureInfo.InvariantCulture) : usual;
}
