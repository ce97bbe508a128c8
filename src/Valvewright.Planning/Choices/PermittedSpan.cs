using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Choices;

/// <summary>A span of the controller's day in which a run may lie, in seconds after midnight of the day its start belongs to.</summary>
/// <param name="From">First permitted second, 0 to 86,399.</param>
/// <param name="To">First second after; beyond 86,400 where the span runs into the next day.</param>
/// <param name="OpenedOn">Which days (0 the start's own, -1 the day before, 1 the next) must be permitted for it to hold.</param>
internal sealed record PermittedSpan(int From, int To, ListOf<int> OpenedOn)
{
    public const int Day = 86_400;

    public int Seconds => To - From;

    /// <summary>The whole day.</summary>
    public static ListOf<PermittedSpan> AnyHours { get; } = [new PermittedSpan(0, 2 * Day, [])];

    /// <summary>The permitted hours of a supply as a controller's clock sees them, from the evening before a watering day to the end of the
    /// next; they may touch or overlap.</summary>
    /// <param name="permitted">Windows of site time.</param>
    /// <param name="clockBehind">
    /// By how much the controller's clock may be behind site time at some time of the year (0, and 3,600 where daylight saving is
    /// observed but the clock doesn't know it): only hours that are permitted in every case count.
    /// </param>
    /// <param name="bothReadings">Whether of a window over midnight only that counts which is permitted by either reading
    /// (<see cref="PermittedTimes.IsInDoubt"/>).</param>
    public static ListOf<PermittedSpan> Of(PermittedTimes permitted, IReadOnlyList<int> clockBehind, bool bothReadings = false)
    {
        List<PermittedSpan>? common = null;
        foreach (int behind in clockBehind)
        {
            List<PermittedSpan> spans = OnEndlessTime(permitted, behind, bothReadings);
            if (permitted.EveryDate)
            {
                spans = Merged(spans);
            }

            common = common is null ? spans : Common(common, spans);
        }

        return [.. common!
            .Select(s => permitted.EveryDate ? s with { OpenedOn = [] } : s)
            .Distinct()
            .OrderBy(s => s.From).ThenBy(s => s.To)];
    }

    /// <summary>Spans that hold on the same dates, those that touch made one, and only what a start of the day itself can reach.</summary>
    public static ListOf<PermittedSpan> Together(IEnumerable<PermittedSpan> spans) =>
        [.. Merged(spans.Select(s => s with { OpenedOn = [] }))
            .Select(s => s with { From = Math.Max(0, s.From), To = Math.Min(s.To, 2 * Day) })
            .Where(s => s.From < Day && s.To > s.From)];

    /// <summary>How far clocks may stand behind site time over a year.</summary>
    public static IReadOnlyList<int> ClockBehind(Site site, Profile profile, LocalDate from)
    {
        ListOf<int> behind = new SiteClock(site.Zone(), profile).SecondsBehind(from, from.PlusYears(1));
        return behind.Count > 1 ? behind : [0];
    }

    private static List<PermittedSpan> OnEndlessTime(PermittedTimes permitted, int behind, bool bothReadings)
    {
        List<PermittedSpan> spans = [];
        for (int opened = -2; opened <= 2; opened++)
        {
            if (permitted.Hours.Count == 0)
            {
                spans.Add(new PermittedSpan(opened * Day - behind, (opened + 1) * Day - behind, [opened]));
            }

            foreach (TimeWindow window in permitted.Hours)
            {
                int from = opened * Day + (int)(window.From.NanosecondOfDay / NodaConstants.NanosecondsPerSecond) - behind;
                int midnight = (opened + 1) * Day - behind;
                if (bothReadings && window.PassesMidnight && permitted.IsInDoubt)
                {
                    spans.Add(new PermittedSpan(from, midnight, [opened]));
                    spans.Add(new PermittedSpan(midnight, from + window.Seconds, [opened, opened + 1]));
                }
                else
                {
                    spans.Add(new PermittedSpan(from, from + window.Seconds, [opened]));
                }
            }
        }

        return spans;
    }

    private static List<PermittedSpan> Merged(IEnumerable<PermittedSpan> spans)
    {
        List<PermittedSpan> merged = [];
        foreach (PermittedSpan span in spans.OrderBy(s => s.From))
        {
            if (merged.Count > 0 && span.From <= merged[^1].To)
            {
                merged[^1] = merged[^1] with { To = Math.Max(merged[^1].To, span.To) };
            }
            else
            {
                merged.Add(span);
            }
        }

        return merged;
    }

    private static List<PermittedSpan> Common(List<PermittedSpan> some, List<PermittedSpan> others) =>
        [.. from a in some
            from b in others
            let shared = new PermittedSpan(
                Math.Max(a.From, b.From), Math.Min(a.To, b.To), [.. a.OpenedOn.Concat(b.OpenedOn).Distinct().Order()])
            where shared.From < shared.To
            select shared];
}
