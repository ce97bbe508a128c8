using Valvewright.Engine.Plans;
using Valvewright.Files.Timelines;

namespace Valvewright.Work.Accounts;

/// <summary>The water of a supply's or a site's controllers as visits left them, over some time.</summary>
internal sealed class WaterAsLeft
{
    private readonly Interval span;
    private readonly List<(string Controller, string Supply, Interval When, double FlowLpm)> openings = [];
    private readonly Dictionary<string, List<Interval>> known = [];
    private readonly SiteController[] controllers;

    private WaterAsLeft(Site site, Interval span) =>
        (this.span, controllers) = (span, [.. site.Controllers.Where(c => c.Zones.Count > 0)]);

    /// <summary>Follows each controller from visit to visit.</summary>
    /// <param name="site">The site.</param>
    /// <param name="left">What visits left.</param>
    /// <param name="from">First date.</param>
    /// <param name="to">Last date.</param>
    public static WaterAsLeft Of(Site site, ListOf<LeftByVisit> left, LocalDate from, LocalDate to)
    {
        DateTimeZone zone = site.Zone();
        Interval span = new(zone.AtStartOfDay(from).ToInstant(), zone.AtStartOfDay(to.PlusDays(1)).ToInstant());
        WaterAsLeft water = new(site, span);
        foreach (SiteController controller in water.controllers)
        {
            LeftByVisit[] visits = [.. left.Where(v => v.Controller == controller.Name).OrderBy(v => v.At)];
            List<Interval> stretches = water.known[controller.Name] = [];
            for (int i = 0; i < visits.Length; i++)
            {
                Instant begins = Instant.Max(span.Start, At(zone, visits[i].At));
                Instant ends = i + 1 < visits.Length ? Instant.Min(span.End, At(zone, visits[i + 1].At)) : span.End;
                if (begins < ends && visits[i].IsKnown)
                {
                    stretches.Add(new Interval(begins, ends));
                    water.Follow(site, controller, visits[i], new Interval(begins, ends));
                }
            }
        }

        return water;
    }

    /// <summary>Controllers that water something.</summary>
    public int Controllers => controllers.Length;

    /// <summary>Controllers whose settings are known for a part of the time at least.</summary>
    public int ControllersKnown => known.Values.Count(s => s.Count > 0);

    /// <summary>The part of the time, over all controllers, whose settings are known.</summary>
    public double KnownShare => controllers.Length == 0 ? 0
        : known.Values.Sum(s => s.Sum(i => i.Duration.TotalHours)) / (controllers.Length * span.Duration.TotalHours);

    /// <summary>Water of all the time that is known.</summary>
    public double KnownM3 => openings.Sum(o => Water(o.When, o.FlowLpm));

    /// <summary>Water of a supply between two moments; null where not all settings of its controllers are known.</summary>
    public double? Between(string supply, Instant from, Instant to)
    {
        bool isKnown = controllers.Where(c => c.Supply == supply).All(c => Covers(known[c.Name], from, to));
        return isKnown ? openings.Where(o => o.Supply == supply).Sum(o => Within(o.When, from, to) is { } part ? Water(part, o.FlowLpm) : 0)
            : null;
    }

    private void Follow(Site site, SiteController controller, LeftByVisit visit, Interval when)
    {
        if (visit.Settings is not { } settings)
        {
            return;
        }

        DateTimeZone zone = site.Zone();
        Plan steady = new(site.Name, [new ControllerPlan(controller.Name, settings, [])]);
        LocalDate first = when.Start.InZone(zone).Date.PlusDays(-1);
        SiteWaterings all = SiteWaterings.Of(
            site, steady, LocalDate.Max(first, visit.At.Date), when.End.InZone(zone).Date, controller.Name, since: visit.At.Date);
        openings.AddRange(all.Waterings
            .Select(w => (w.Controller, w.Supply, When: Within(new Interval(w.Opens, w.Closes), when.Start, when.End), w.FlowLpm))
            .Where(w => w.When is not null).Select(w => (w.Controller, w.Supply, w.When!.Value, w.FlowLpm)));
    }

    private static bool Covers(List<Interval> stretches, Instant from, Instant to)
    {
        foreach (Interval stretch in stretches)
        {
            from = stretch.Start <= from && stretch.End > from ? stretch.End : from;
        }

        return from >= to;
    }

    private static Interval? Within(Interval when, Instant from, Instant to) =>
        Instant.Max(when.Start, from) is var start && Instant.Min(when.End, to) is var end && start < end ? new Interval(start, end) : null;

    private static double Water(Interval when, double flowLpm) => flowLpm * when.Duration.TotalMinutes / 1000;

    private static Instant At(DateTimeZone zone, LocalDateTime time) => time.InZoneLeniently(zone).ToInstant();
}
