using CsCheck;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>
/// On random plans around a change of the clocks, the sweep over spans and the slow way, minute by minute with nothing but the calendar,
/// find the same breaches of flow and of permitted times.
/// </summary>
public class RulesAgreeWithEveryMinuteTests
{
    private static readonly DateTimeZone Pacific = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];

    /// <summary>One daily or every-other-day program of two stations.</summary>
    private sealed record Drawn(int StartMinute, int FirstMinutes, int SecondMinutes, int EveryDays, bool KnowsDaylightSaving);

    private static readonly Gen<Drawn> GenController = Gen
        .Select(Gen.Int[0, 1439], Gen.Int[1, 90], Gen.Int[1, 90], Gen.Int[1, 3], Gen.Bool, (s, a, b, n, k) => new Drawn(s, a, b, n, k));

    [Fact]
    public void BothFindTheSame() =>
        Gen.Select(GenController.Array[1, 4], Gen.Int[0, 23], Gen.Int[0, 23], Gen.Int[1, 4], Gen.Select(Gen.Enum<DateParity>(), Gen.Bool))
            .ForEvery((drawn, opens, closes, stations, when) =>
        {
            (DateParity parity, bool inSpring) = when;
            // 8 March and 1 November 2026.
            LocalDate from = inSpring ? new LocalDate(2026, 3, 4) : new LocalDate(2026, 10, 28), to = from.PlusDays(8);
            PermittedTimes permitted =
                new([new TimeWindow(new LocalTime(opens, 0), new LocalTime(closes, 0))], PermittedTimes.EveryWeekday, parity);
            Site site = Sites.Site([.. drawn.Select((_, i) => $"C{i}")])
                .WithSupply(s => s with { FlowLpm = 10 * stations, Permitted = permitted });
            site = site with { Controllers = site.Controllers.Select(
                (c, i) => c with { Profile = c.Profile with
                    { StartStepMinutes = 1, ClockKnowsDaylightSaving = drawn[i].KnowsDaylightSaving } }).ToListOf() };
            Plan plan = new("x", drawn.Select((d, i) => new ControllerPlan($"C{i}", new Settings([ProgramOf(d, from)]), [])).ToListOf());

            ListOf<Breach> found = RulesCheck.Of(site, plan, from, to).Breaches;
            (bool flow, HashSet<(int, int)> outside) = EveryMinute(drawn, from, to, permitted, stations);
            Assert.Equal(flow, found.Any(b => b.Kind == BreachKind.FlowOverSupply));
            Assert.Equal(
                outside.Order().Select(o => $"C{o.Item1}, program A, station {o.Item2} (Lawn {o.Item2})"),
                found.Where(b => b.Kind == BreachKind.OutsidePermittedTimes).Select(b => b.Where).Order(StringComparer.Ordinal));
        }, iter: 300);

    private static Program ProgramOf(Drawn d, LocalDate from) => new(
        'A', [LocalTime.FromMinutesSinceMidnight(d.StartMinute)],
            [new RunTime(1, 60 * d.FirstMinutes), new RunTime(2, 60 * d.SecondMinutes)], new EveryNDays(d.EveryDays, from));

    private static (bool Flow, HashSet<(int Controller, int Station)> Outside) EveryMinute(
        Drawn[] drawn, LocalDate from, LocalDate to, PermittedTimes permitted, int atOnce)
    {
        Dictionary<Instant, int> open = [];
        HashSet<(int, int)> outside = [];
        for (int c = 0; c < drawn.Length; c++)
        {
            for (LocalDate date = from; date <= to; date = date.PlusDays(drawn[c].EveryDays))
            {
                LocalDateTime clock = date + LocalTime.FromMinutesSinceMidnight(drawn[c].StartMinute);
                for (int minute = 0; minute < drawn[c].FirstMinutes + drawn[c].SecondMinutes; minute++)
                {
                    int station = minute < drawn[c].FirstMinutes ? 1 : 2;
                    // The first station opens by the clock; from then on minutes are counted, whatever the clock does.
                    Instant opens = drawn[c].KnowsDaylightSaving ? Pacific.AtLeniently(clock).ToInstant()
                        : clock.WithOffset(Offset.FromHours(-8)).ToInstant();
                    Instant now = opens + Duration.FromMinutes(minute);
                    open[now] = open.GetValueOrDefault(now) + 1;
                    if (!IsPermitted(permitted, now.InZone(Pacific).LocalDateTime))
                    {
                        outside.Add((c, station));
                    }
                }
            }
        }

        return (open.Values.Any(n => n > atOnce), outside);
    }

    private static bool IsPermitted(PermittedTimes permitted, LocalDateTime time)
    {
        TimeWindow window = permitted.Hours[0];
        bool wholeDay = window.From == window.To;
        bool passes = window.To <= window.From;
        bool late = time.TimeOfDay >= window.From && (passes || time.TimeOfDay < window.To);
        bool early = passes && time.TimeOfDay < window.To;
        return (late && permitted.Permits(time.Date)) || (early && permitted.Permits(time.Date.PlusDays(-1)))
            || (wholeDay && late && permitted.Permits(time.Date));
    }
}
