using NodaTime;
using Valvewright.Records;
using Valvewright.Store;
using Valvewright.Store.Files;

namespace Valvewright.Tests.Databases;

/// <summary>What became of a database that was killed again and again.</summary>
/// <param name="Kills">How often.</param>
/// <param name="Kept">Changes that the store said were kept.</param>
/// <param name="Unanswered">Changes that a kill left without an answer.</param>
/// <param name="KeptUnanswered">How many of them were kept all the same, and counted once when they were sent again.</param>
/// <param name="Faults">What was lost or is not whole.</param>
internal sealed record DatabaseCutsOutcome(int Kills, int Kept, int Unanswered, int KeptUnanswered, IReadOnlyList<string> Faults);

/// <summary>Kills PostgreSQL while several threads of two programs write to a store in it.</summary>
internal static class PostgresCuts
{
    private const int Writers = 4;
    private const int MostBeforeKill = 60;

    private static readonly Stamp Ana = new("Ana", Instant.FromUtc(2026, 4, 1, 7, 30));

    public static DatabaseCutsOutcome Run(int kills, int seed, Action<string>? tell = null)
    {
        using PostgresCluster cluster = new();
        string place = cluster.Database();
        Random random = new(seed);
        Dictionary<Guid, string> kept = [];
        List<string> faults = [];
        int unanswered = 0, keptUnanswered = 0;
        using SiteStore one = SiteStore.Open(place), other = SiteStore.Open(place);
        Guid site = Ids.New();
        one.PutSite(site, new SiteValue("Heron Bank", "site: Heron Bank\n", "d1"), null, Ana);
        for (int kill = 1; kill <= kills; kill++)
        {
            using SemaphoreSlim written = new(0);
            int before = random.Next(1, MostBeforeKill);
            Task<Guid>[] writing = [.. Enumerable.Range(0, Writers).Select(w => Task.Factory.StartNew(
                () => UntilLost(w % 2 == 0 ? one : other, site, kept, written), TaskCreationOptions.LongRunning))];
            for (int i = 0; i < before; i++)
            {
                written.Wait();
            }

            cluster.Kill();
            Guid[] open = [.. writing.Select(w => w.Result)];
            cluster.Start();
            // The store that was open all along goes on, and what had no answer is sent again.
            foreach (Guid id in open)
            {
                unanswered++;
                Outcome again = Put(other, site, id);
                keptUnanswered += again == Outcome.Same ? 1 : 0;
                faults.AddRange(again is Outcome.Same or Outcome.Made ? [] : (string[])[$"kill {kill}: {id} sent again: {again}"]);
                kept.Add(id, Notes(id));
            }

            Dictionary<Guid, string> there = one.All<VisitValue>(site).ToDictionary(v => v.Id, v => v.Value.Notes);
            faults.AddRange(kept.Where(k => there.GetValueOrDefault(k.Key) != k.Value).Select(k => $"kill {kill}: {k.Key} is lost"));
            faults.AddRange(there.Keys.Except(kept.Keys).Select(k => $"kill {kill}: {k} was not written"));
            faults.AddRange(Intact.Check(place).Faults.Select(f => $"kill {kill}: {f}"));
            tell?.Invoke($"{kill} kills, {kept.Count} changes kept, {unanswered} without an answer, {faults.Count} faults");
        }

        return new DatabaseCutsOutcome(kills, kept.Count, unanswered, keptUnanswered, faults);
    }

    /// <summary>Writes until the database is gone.</summary>
    /// <returns>The record that got no answer.</returns>
    private static Guid UntilLost(SiteStore store, Guid site, Dictionary<Guid, string> kept, SemaphoreSlim written)
    {
        while (true)
        {
            Guid id = Ids.New();
            try
            {
                Outcome outcome = Put(store, site, id);
                if (outcome != Outcome.Made)
                {
                    throw new InvalidOperationException($"{id}: {outcome}");
                }
            }
            catch (Exception lost) when (DatabaseLoss.Caused(lost))
            {
                return id;
            }

            lock (kept)
            {
                kept.Add(id, Notes(id));
            }

            written.Release();
        }
    }

    private static Outcome Put(SiteStore store, Guid site, Guid id) => store.Put(site, id,
        new VisitValue("Gate", new LocalDateTime(2026, 4, 1, 9, 30), "", "A: starts 4:00", 8.7, [], 12.5, Notes(id)), null, Ana).Outcome;

    private static string Notes(Guid id) => new('n', id.ToByteArray()[15] * 20);
}
