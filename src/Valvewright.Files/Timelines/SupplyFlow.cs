namespace Valvewright.Files.Timelines;

/// <summary>A span over which the flow from a supply stays the same.</summary>
/// <param name="From">First moment.</param>
/// <param name="To">First moment after it.</param>
/// <param name="FlowLpm">The flow, above 0.</param>
public readonly record struct FlowStep(Instant From, Instant To, double FlowLpm);

/// <summary>What waterings take from a supply.</summary>
public static class SupplyFlow
{
    /// <summary>The flow wherever it is not 0, by rising time. A valve that two programs hold open is one valve.</summary>
    public static ListOf<FlowStep> Of(SiteWaterings site, string supply)
    {
        ArgumentNullException.ThrowIfNull(site);
        Watering[] own = [.. site.Waterings.Where(w => w.Supply == supply && w.FlowLpm > 0)];
        Instant[] changes = [.. own.SelectMany(w => new[] { w.Opens, w.Closes }).Distinct().Order()];
        List<FlowStep> steps = [];
        List<Watering> open = [];
        int next = 0;
        Watering[] byOpening = [.. own.OrderBy(w => w.Opens)];
        for (int index = 0; index + 1 < changes.Length; index++)
        {
            Instant now = changes[index];
            open.RemoveAll(w => w.Closes <= now);
            for (; next < byOpening.Length && byOpening[next].Opens <= now; next++)
            {
                open.Add(byOpening[next]);
            }

            if (open.Count > 0)
            {
                steps.Add(new FlowStep(now, changes[index + 1], open.DistinctBy(w => (w.Controller, w.Station)).Sum(w => w.FlowLpm)));
            }
        }

        return steps.ToListOf();
    }

    /// <summary>Litres that a supply gives from one date's beginning to another's end; runs that reach over the edge count in
    /// part.</summary>
    public static double Litres(SiteWaterings site, string supply, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(site);
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[site.TimeZone];
        Instant begin = zone.AtStartOfDay(from).ToInstant();
        Instant end = zone.AtStartOfDay(to.PlusDays(1)).ToInstant();
        return Of(site, supply).Sum(s =>
        {
            Duration within = Instant.Min(s.To, end) - Instant.Max(s.From, begin);
            return within > Duration.Zero ? s.FlowLpm * within.TotalMinutes : 0;
        });
    }
}
