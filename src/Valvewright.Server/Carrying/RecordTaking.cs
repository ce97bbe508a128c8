using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Server.Problems;
using Valvewright.Server.Visits;
using Valvewright.Store;

namespace Valvewright.Server.Carrying;

/// <summary>Takes records of carried files into a store.</summary>
public static class RecordTaking
{
    /// <summary>Takes the records of a file in, all or none. One that is there already under its id counts once, however often it
    /// comes.</summary>
    /// <exception cref="FormatException">A record cannot be kept as it is.</exception>
    /// <exception cref="KeyNotFoundException">The store has no such site.</exception>
    public static ListOf<(VisitRecord Visit, Outcome Outcome)> TakeIn(SiteStore store, RecordFile file, IClock clock)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(clock);
        if (store.Site(file.Site) is null)
        {
            throw new KeyNotFoundException($"The store has no site {file.Site} ({file.SiteName}).");
        }

        foreach (VisitRecord visit in file.Records)
        {
            try
            {
                RecordRules.Require(visit.Value);
            }
            catch (Refusal reason)
            {
                throw new FormatException($"Visit {visit.Id}: {reason.Message}", reason);
            }
        }

        Instant now = clock.GetCurrentInstant();
        IReadOnlyList<Outcome> outcomes = store.PutAll(
            file.Records.Select(r => new Change(file.Site, r.Id, RecordKind.Visit, r.Value, null, new Stamp(r.By, now))),
                leaveOthers: true);
        return outcomes.Count == file.Records.Count
            && outcomes.All(o => o is Outcome.Made or Outcome.Changed or Outcome.Same or Outcome.NeedsVersion)
            ? file.Records.Zip(outcomes, (r, o) => (r, o)).ToListOf()
            : throw new FormatException(
                $"Visit {file.Records[outcomes.Count - 1].Id}: the store has another record under this id. Nothing was taken in.");
    }
}
