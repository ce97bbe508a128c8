using NodaTime;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>Whether all water falls within permitted hours of permitted days, in local time.</summary>
internal static class PermittedCheck
{
    /// <summary>Checks openings that draw on one supply.</summary>
    /// <returns>What keeps the rule by one of its readings only; null where there is nothing of the kind.</returns>
    public static DatesInDoubt? Run(
        DateTimeZone zone, WaterSupply supply, IReadOnlyList<Opening> openings, LocalDate from, LocalDate to, BreachList breaches,
        RulesMemory memory)
    {
        PermittedTimes permitted = supply.Permitted;
        List<(long From, long To)> spans = memory.Spans(zone, permitted, from.PlusDays(-2), to.PlusDays(3));
        List<(long From, long To)> byDate = permitted.IsInDoubt
            ? memory.Spans(zone, permitted.ByCalendarDate(), from.PlusDays(-2), to.PlusDays(3)) : spans;
        long all = 0, inDoubt = 0;
        LocalDateTime? first = null;
        foreach (Opening opening in openings)
        {
            if (permitted.DripIsExempt && opening.Zone?.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler)
            {
                continue;
            }

            long outside = SecondsOutside(spans, opening.OpensUnix, opening.ClosesUnix);
            if (outside > 0)
            {
                breaches.Add(BreachKind.OutsidePermittedTimes, Whereabouts.Of(opening),
                    $"open outside the permitted times of {supply.Name}", opening.SiteTime(zone),
                    new BreachFigure(BreachMeasure.Seconds, outside, 0));
            }

            long onOtherDate = SecondsOutside(byDate, opening.OpensUnix, opening.ClosesUnix) - outside;
            all += opening.ClosesUnix - opening.OpensUnix;
            if (onOtherDate > 0)
            {
                inDoubt += onOtherDate;
                LocalDateTime at = opening.SiteTime(zone);
                first = first is { } known && known < at ? known : at;
            }
        }

        return first is { } begun ? new DatesInDoubt((double)inDoubt / all, begun) : null;
    }

    /// <summary>Permitted spans of real time, rising and apart: windows that touch are one.</summary>
    internal static List<(long From, long To)> Spans(DateTimeZone zone, PermittedTimes permitted, LocalDate from, LocalDate to)
    {
        List<(long From, long To)> spans = [];
        for (LocalDate date = from; date <= to; date = date.PlusDays(1))
        {
            if (!permitted.Permits(date))
            {
                continue;
            }

            if (permitted.Hours.Count == 0)
            {
                spans.Add((Unix(date.AtMidnight()), Unix(date.PlusDays(1).AtMidnight())));
            }

            foreach (TimeWindow window in permitted.Hours)
            {
                LocalDate closes = window.To <= window.From ? date.PlusDays(1) : date;
                spans.Add((Unix(date + window.From), Unix(closes + window.To)));
            }
        }

        spans.Sort();
        return Merged(spans);

        long Unix(LocalDateTime time) => zone.AtLeniently(time).ToInstant().ToUnixTimeSeconds();
    }

    private static List<(long From, long To)> Merged(List<(long From, long To)> spans)
    {
        List<(long From, long To)> merged = [];
        foreach ((long from, long to) in spans)
        {
            if (merged.Count > 0 && from <= merged[^1].To)
            {
                merged[^1] = (merged[^1].From, Math.Max(merged[^1].To, to));
            }
            else
            {
                merged.Add((from, to));
            }
        }

        return merged;
    }

    private static long SecondsOutside(List<(long From, long To)> spans, long from, long to)
    {
        int first = spans.BinarySearch((from, long.MaxValue));
        long inside = 0;
        for (int i = Math.Max(0, (first < 0 ? ~first : first) - 1); i < spans.Count && spans[i].From < to; i++)
        {
            inside += Math.Max(0, Math.Min(to, spans[i].To) - Math.Max(from, spans[i].From));
        }

        return to - from - inside;
    }
}
