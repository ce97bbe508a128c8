using Valvewright.Store;
using Valvewright.Store.Files;

namespace Valvewright.Tests.Serving;

/// <summary>What became of a server that was killed again and again.</summary>
/// <param name="Kills">How often.</param>
/// <param name="BeforeListening">How many of them before it listened.</param>
/// <param name="Kept">Changes that it said were kept.</param>
/// <param name="Faults">What was lost or is not whole.</param>
internal sealed record CutsOutcome(int Kills, int BeforeListening, int Kept, IReadOnlyList<string> Faults);

/// <summary>Kills a server with signal 9 at random moments while several people write to it.</summary>
internal static class PowerCuts
{
    private const int Writers = 4;
    private const int LongestMs = 400;
    private const int OneInBeforeListening = 10;

    public static async Task<CutsOutcome> Run(string folder, int kills, int seed, Action<string>? tell = null)
    {
        string file = Path.Combine(folder, "cuts.db");
        Random random = new(seed);
        Writer[] writers = [.. Enumerable.Range(0, Writers).Select(w => new Writer(w, seed + w + 1))];
        List<string> faults = [];
        int early = 0;
        for (int kill = 1; kill <= kills; kill++)
        {
            if (random.Next(OneInBeforeListening) == 0)
            {
                early++;
                using ServerProcess server = ServerProcess.Begin(file);
                await Task.Delay(random.Next(LongestMs));
                server.Kill();
            }
            else
            {
                using ServerProcess server = await ServerProcess.Start(file);
                // A server that has just started takes its time with the first request; what is to be hit is the writing.
                TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);
                void Begin() => begun.TrySetResult();
                Array.ForEach(writers, w => w.HasKept += Begin);
                Task writing = Task.WhenAll(writers.Select(w => w.Write(server.Client!, CancellationToken.None)));
                await Task.WhenAny(begun.Task, writing);
                Array.ForEach(writers, w => w.HasKept -= Begin);
                await Task.Delay(random.Next(LongestMs));
                server.Kill();
                await writing;
            }

            faults.AddRange(Look(file, writers).Select(f => $"kill {kill}: {f}"));
            tell?.Invoke($"{kill} kills, {writers.Sum(w => w.Kept)} changes kept, {faults.Count} faults");
        }

        return new CutsOutcome(kills, early, writers.Sum(w => w.Kept), faults);
    }

    private static List<string> Look(string file, Writer[] writers)
    {
        if (!File.Exists(file))
        {
            return [];
        }

        using (SiteStore opened = SiteStore.Open(file))
        {
            // Opening alone must be enough: no repair by hand.
        }

        List<string> faults = [.. Intact.Check(file).Faults];
        using SiteStore store = SiteStore.Open(file);
        foreach (Writer writer in writers)
        {
            faults.AddRange(writer.Missing(store));
            writer.Resume(store);
        }

        return faults;
    }
}
