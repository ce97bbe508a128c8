using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Slips;

/// <summary>What some settings lead to, found out by walking over every minute; shares nothing with the check but the emulator.</summary>
internal sealed class Walk(Site site, SiteController controller, Plan plan, LocalDateTime at)
{
    private const int Days = 63;
    private const int Minutes = (Days + 1) * 1440;
    private readonly LocalDate first = at.Date.PlusDays(1);
    private readonly DateTimeZone zone = site.Zone();
    private readonly WaterSupply supply = site.SupplyNamed(controller.Supply);

    /// <summary>Three questions with the answers no, yes, and hard to say.</summary>
    public (bool? Outside, bool Overlaps, bool? TooMuch) Of(Settings settings)
    {
        SiteTimeline timeline = Run(controller, settings);
        return (IsOutside(timeline), Overlaps(settings, timeline), IsTooMuch(timeline));
    }

    private SiteTimeline Run(SiteController of, Settings settings) =>
        SiteEmulator.Run(of.Profile, settings, new Circumstances { KeyedIn = at }, zone, first, first.PlusDays(Days - 1));

    private bool? IsOutside(SiteTimeline timeline)
    {
        int worst = 0;
        foreach (SiteRun run in timeline.Runs)
        {
            Zone? watered = controller.Zones.FirstOrDefault(z => z.Station == run.Station);
            if (watered is null || (supply.Permitted.DripIsExempt && watered.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler))
            {
                continue;
            }

            int outside = 0;
            for (Instant minute = run.Opens; minute < run.Closes; minute += Duration.FromMinutes(1))
            {
                outside += Permits(minute.InZone(zone).LocalDateTime) ? 0 : 1;
            }

            worst = Math.Max(worst, outside);
        }

        return worst == 0 ? false : worst >= 3 ? true : null;
    }

    private bool Permits(LocalDateTime time)
    {
        PermittedTimes permitted = supply.Permitted;
        if (permitted.Hours.Count == 0)
        {
            return permitted.Permits(time.Date);
        }

        foreach (TimeWindow window in permitted.Hours)
        {
            // The window may have opened on the day before.
            foreach (LocalDate opened in new[] { time.Date, time.Date.PlusDays(-1) })
            {
                LocalDateTime from = opened + window.From, to = (window.To <= window.From ? opened.PlusDays(1) : opened) + window.To;
                if (permitted.Permits(opened) && from <= time && time < to)
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>A program that does something else when it has the controller to itself is in another's way; its own starts, when one is
    /// lost or comes before it has ended.</summary>
    private bool Overlaps(Settings settings, SiteTimeline together)
    {
        foreach (Program program in settings.Programs)
        {
            SiteTimeline alone = Run(controller, settings with { Programs = [program] });
            SiteRun[] own = [.. together.Runs.Where(r => r.Program == program.Letter)];
            if (!own.SequenceEqual(alone.Runs) || alone.LostStarts.Count > 0)
            {
                return true;
            }

            // A start that had to wait shows another time than was keyed in.
            int lead = controller.Profile.Pump?.LeadSeconds ?? 0;
            LocalTime[] starts = [.. program.StartTimes.Order()];
            int opensFirst = alone.Runs.Select(r => r.Station).DefaultIfEmpty(0).Min();
            if (alone.Runs.Any(r => r.Station == opensFirst && r.Shown.TimeOfDay != starts[r.Start].PlusSeconds(lead)))
            {
                return true;
            }
        }

        return controller.Profile.Overlap == OverlapBehaviour.RunsBeside
            && together.Runs.Any(a => together.Runs.Any(b => a.Program < b.Program && a.Opens < b.Closes && b.Opens < a.Closes));
    }

    private bool? IsTooMuch(SiteTimeline own)
    {
        double[] atLeast = new double[Minutes], atMost = new double[Minutes];
        Instant begin = zone.AtStartOfDay(first).ToInstant();
        Mark(controller, own);
        foreach (SiteController other in site.Controllers.Where(c => c.Supply == supply.Name && c.Name != controller.Name))
        {
            if (plan.Controllers.FirstOrDefault(p => p.Controller == other.Name) is { } its
                && Display.PercentOn(its, at.Date) is > 0 and var percent)
            {
                Mark(other, Run(other, its.Settings with { PercentAdjust = percent }));
            }
        }

        return atLeast.Max() > supply.FlowLpm + 0.01 ? true : atMost.Max() > supply.FlowLpm + 0.01 ? null : false;

        void Mark(SiteController of, SiteTimeline timeline)
        {
            foreach (SiteRun run in timeline.Runs)
            {
                double flow = of.Zones.FirstOrDefault(z => z.Station == run.Station)?.Emission.FlowLpm ?? 0;
                double from = (run.Opens - begin).TotalMinutes, to = (run.Closes - begin).TotalMinutes;
                for (int m = Math.Max(0, (int)Math.Floor(from)); m < to && m < Minutes; m++)
                {
                    atMost[m] += flow;
                    atLeast[m] += m >= from && m + 1 <= to ? flow : 0;
                }
            }
        }
    }
}
