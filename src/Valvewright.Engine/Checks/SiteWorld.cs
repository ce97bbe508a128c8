using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What one controller does on a site after it was read, and how that sits with the site's rules and supply.</summary>
internal sealed class SiteWorld
{
    /// <summary>So long after the reading times are sought at which something shows: any such stretch holds a 31st.</summary>
    public const int DaysAhead = 63;

    private const int DaysOfEffect = 28;
    private const int LongestRunSeconds = 24 * 3600;
    private const double FlowToleranceLpm = 1e-6;

    private readonly SiteController controller;
    private readonly WaterSupply? supply;
    private readonly DateTimeZone zone;
    private readonly LocalDateTime at;
    private readonly List<(long From, long To)> spans;
    private readonly Lazy<List<(long From, long To, double Lpm)>> others;

    public SiteWorld(Site site, SiteController controller, Plan? plan, LocalDateTime at)
    {
        this.controller = controller;
        this.at = at;
        zone = site.Zone();
        supply = site.Supplies.FirstOrDefault(s => s.Name == controller.Supply);
        First = at.Date.PlusDays(1);
        spans = supply is null ? [] : PermittedCheck.Spans(zone, supply.Permitted, First.PlusDays(-2), First.PlusDays(DaysAhead + 3));
        others = new(() => OthersOf(site, plan));
    }

    /// <summary>First date of what is looked at.</summary>
    public LocalDate First { get; }

    public DateTimeZone Zone => zone;

    /// <summary>When the supply may be used; null where the survey does not know the supply.</summary>
    public PermittedTimes? Permitted => supply?.Permitted;

    /// <summary>The right time by the controller's clock.</summary>
    public LocalDateTime RightClock(LocalDateTime site) =>
        new Circumstances { KeyedIn = site }.ShowsAtFirst(controller.Profile, zone);

    /// <summary>Runs the controller from the moment it was read.</summary>
    public Doings Run(AsFound held, int days = DaysAhead) => Run(controller, held, at, First, First.PlusDays(days - 1));

    /// <summary>Runs a controller over site dates.</summary>
    public Doings Run(SiteController controller, AsFound held, LocalDateTime keyedIn, LocalDate from, LocalDate to)
    {
        List<OffSpell> off = [];
        if (held.Off)
        {
            off.Add(new OffSpell(keyedIn, null));
        }
        else if (held.RainHoldDays > 0)
        {
            off.Add(new OffSpell(keyedIn, keyedIn.PlusDays(held.RainHoldDays)));
        }

        Circumstances circumstances = new() { KeyedIn = keyedIn, ClockSetTo = held.ClockShows, Off = off.ToListOf() };
        Settings runnable = Runnable(held.Settings);
        SiteTimeline timeline = SiteEmulator.Run(controller.Profile, runnable, circumstances, zone, from, to);
        return new Doings(zone, controller, runnable, timeline);
    }

    /// <summary>The mean week of the first four.</summary>
    public WeekOfWater WeekOf(Doings doings)
    {
        long until = zone.AtStartOfDay(First.PlusDays(DaysOfEffect)).ToInstant().ToUnixTimeSeconds();
        Opened[] runs = [.. doings.Runs.Where(r => r.Opens < until)];
        const double Weeks = DaysOfEffect / 7.0;
        return new WeekOfWater(
            runs.Sum(r => r.Seconds) / 60.0 / Weeks, runs.Sum(r => r.Seconds / 60.0 * r.Lpm) / Weeks, runs.Length / Weeks);
    }

    /// <summary>Openings that lie outside permitted times by more than a minute.</summary>
    public List<Opened> OutsidePermitted(Doings doings) => supply is null
        ? []
        : [.. doings.Runs.Where(r => !IsExempt(r) && r.Seconds - Inside(r) > 60)];

    /// <summary>Whether water may be used at a moment.</summary>
    public bool IsPermitted(long unix) => spans.Any(s => s.From <= unix && unix < s.To);

    /// <summary>When the supply is asked for more than it gives, with the plan for the other controllers; null: never.</summary>
    public long? TooMuchFlow(Doings doings)
    {
        if (supply is null)
        {
            return null;
        }

        List<(long At, double Change)> changes = [];
        foreach ((long from, long to, double lpm) in others.Value.Concat(doings.Runs.Select(r => (r.Opens, r.Closes, r.Lpm))))
        {
            changes.Add((from, lpm));
            changes.Add((to, -lpm));
        }

        changes.Sort();
        double flow = 0;
        for (int i = 0; i < changes.Count; i++)
        {
            flow += changes[i].Change;
            bool last = i + 1 == changes.Count || changes[i + 1].At != changes[i].At;
            if (last && flow > supply.FlowLpm + FlowToleranceLpm)
            {
                return changes[i].At;
            }
        }

        return null;
    }

    /// <summary>Seconds by site time.</summary>
    public LocalDateTime SiteTime(long unix) => Instant.FromUnixTimeSeconds(unix).InZone(zone).LocalDateTime;

    private bool IsExempt(Opened run) => supply!.Permitted.DripIsExempt && run.Drips;

    private long Inside(Opened run)
    {
        int first = spans.BinarySearch((run.Opens, long.MaxValue));
        long inside = 0;
        for (int i = Math.Max(0, (first < 0 ? ~first : first) - 1); i < spans.Count && spans[i].From < run.Closes; i++)
        {
            inside += Math.Max(0, Math.Min(run.Closes, spans[i].To) - Math.Max(run.Opens, spans[i].From));
        }

        return inside;
    }

    private List<(long From, long To, double Lpm)> OthersOf(Site site, Plan? plan)
    {
        List<(long, long, double)> runs = [];
        foreach (SiteController other in site.Controllers.Where(c => c.Name != controller.Name && c.Supply == controller.Supply))
        {
            if (plan?.Controllers.FirstOrDefault(p => p.Controller == other.Name) is { } own)
            {
                AsFound held = Expectation.Of(own, at.Date);
                runs.AddRange(Run(other, held, at, First, First.PlusDays(DaysAhead - 1)).Runs.Select(r => (r.Opens, r.Closes, r.Lpm)));
            }
        }

        return runs;
    }

    /// <summary>The settings without what no controller could do anything with.</summary>
    internal static Settings Runnable(Settings settings) => settings with
    {
        PercentAdjust = Math.Clamp(settings.PercentAdjust, 0, 1000),
        Programs = settings.Programs
            .Where(p => p.Days is not EveryNDays { Days: < 1 })
            .Select(p => p with
            {
                StartTimes = p.StartTimes.Distinct().Order().ToListOf(),
                RunTimes = p.RunTimes.Where(r => r.Station > 0 && r.Seconds is > 0 and <= LongestRunSeconds).DistinctBy(r => r.Station)
                    .OrderBy(r => r.Station).ToListOf(),
            })
            .DistinctBy(p => p.Letter).ToListOf(),
    };
}
