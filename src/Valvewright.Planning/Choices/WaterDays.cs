using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Choices;

/// <summary>
/// A way of spreading watering days that means the same to plants whichever date it begins on: two evenly spread weekdays,
/// every third day, odd or even dates. Its phases differ only in the dates.
/// </summary>
/// <param name="Family">Weekdays, interval, or odd for either parity.</param>
/// <param name="Length">Weekdays: how many; interval: every so many days; parity: 2.</param>
/// <param name="Phases">The same spread on other dates; at least one.</param>
internal sealed record WaterDays(DayRuleKind Family, int Length, ListOf<WaterDayPhase> Phases)
{
    /// <summary>What a person sets for the rule, besides its kind: each weekday, the interval and its first date, or nothing
    /// more.</summary>
    public int Settings => 1 + Family switch { DayRuleKind.DaysOfWeek => Length, DayRuleKind.Interval => 2, _ => 0 };

    /// <summary>Mean watering days a day.</summary>
    public double Frequency => Family switch
    {
        DayRuleKind.DaysOfWeek => Length / 7.0,
        DayRuleKind.Interval => 1.0 / Length,
        _ => 0.5,
    };

    /// <summary>Whether it waters on every date.</summary>
    public bool IsDaily => Family == DayRuleKind.Interval ? Length == 1 : Family == DayRuleKind.DaysOfWeek && Length == 7;

    /// <summary>Whether some two watering days may follow each other.</summary>
    public bool HasConsecutiveDates => Family switch
    {
        DayRuleKind.DaysOfWeek => Length > 3 || Phases.Any(p => HasNeighbours((DaysOfWeek)p.Rule)),
        DayRuleKind.Interval => Length == 1,
        _ => true, // the 31st and the 1st
    };

    /// <summary>As a person says it.</summary>
    public string Name => Family switch
    {
        DayRuleKind.DaysOfWeek => Length == 7 ? "every weekday" : $"{Length} days a week",
        DayRuleKind.Interval => Length == 1 ? "every day" : $"every {Length} days",
        _ => "odd or even dates",
    };

    /// <summary>The spread of a rule that is given, at any hour.</summary>
    public static WaterDays Of(DayRule rule) => new(rule.Kind, rule switch
    {
        DaysOfWeek week => week.Days.Count,
        EveryNDays interval => interval.Days,
        _ => 2,
    }, [new WaterDayPhase(rule, [])]);

    /// <summary>Every spread that the profile can hold and the supply permits.</summary>
    /// <param name="profile">What the controller can hold.</param>
    /// <param name="permitted">When the supply may be used.</param>
    /// <param name="hours">The permitted hours by the controller's clock.</param>
    /// <param name="firstDate">Intervals are anchored on this date and those after it.</param>
    /// <param name="longestInterval">Longest interval considered.</param>
    public static ListOf<WaterDays> OfferedBy(
        Profile profile, PermittedTimes permitted, ListOf<PermittedSpan> hours, LocalDate firstDate, int longestInterval)
    {
        List<WaterDays> offered = [];
        void Offer(DayRuleKind family, int length, IEnumerable<DayRule> rules)
        {
            ListOf<WaterDayPhase> phases =
                [.. rules.Select(r => WaterDayPhase.Of(r, profile, permitted, hours, firstDate)).Where(p => p.Spans.Count > 0)];
            if (phases.Count > 0)
            {
                offered.Add(new WaterDays(family, length, phases));
            }
        }

        bool intervals = profile.DayRules.Contains(DayRuleKind.Interval);
        if (intervals)
        {
            for (int n = 1; n <= Math.Min(profile.LargestIntervalDays, longestInterval); n++)
            {
                Offer(DayRuleKind.Interval, n, Enumerable.Range(0, n).Select(phase => new EveryNDays(n, firstDate.PlusDays(phase))));
            }
        }

        Offer(DayRuleKind.Odd, 2, ParityRules(profile));
        if (profile.DayRules.Contains(DayRuleKind.DaysOfWeek))
        {
            for (int k = 1; k <= 7; k++)
            {
                if (k == 7 && offered.Any(o => o.IsDaily))
                {
                    continue; // the same dates with fewer settings
                }

                Offer(DayRuleKind.DaysOfWeek, k, BestSpread(k, profile, permitted, hours, firstDate));
            }
        }

        return [.. offered];
    }

    private static IEnumerable<DayRule> ParityRules(Profile profile)
    {
        if (profile.DayRules.Contains(DayRuleKind.Odd))
        {
            yield return new OddDays();
        }

        if (profile.DayRules.Contains(DayRuleKind.Even))
        {
            yield return new EvenDays();
        }
    }

    /// <summary>Of all choices of k permitted weekdays, those whose longest gaps are shortest.</summary>
    private static IEnumerable<DaysOfWeek> BestSpread(
        int k, Profile profile, PermittedTimes permitted, ListOf<PermittedSpan> hours, LocalDate firstDate)
    {
        List<(string Gaps, DaysOfWeek Rule)> all = [];
        for (int mask = 1; mask < 128; mask++)
        {
            if (System.Numerics.BitOperations.PopCount((uint)mask) != k)
            {
                continue;
            }

            DaysOfWeek rule = new([.. Enumerable.Range(0, 7).Where(d => (mask >> d & 1) == 1).Select(d => (IsoDayOfWeek)(d + 1))]);
            if (WaterDayPhase.Of(rule, profile, permitted, hours, firstDate).Spans.Count > 0)
            {
                all.Add((string.Concat(GapsOf(rule).OrderDescending()), rule));
            }
        }

        string? best = all.Select(a => a.Gaps).Min(StringComparer.Ordinal);
        return all.Where(a => a.Gaps == best).Select(a => a.Rule);
    }

    private static IEnumerable<int> GapsOf(DaysOfWeek rule) =>
        rule.Days.Select((d, i) => i + 1 < rule.Days.Count ? (int)rule.Days[i + 1] - (int)d : (int)rule.Days[0] + 7 - (int)d);

    private static bool HasNeighbours(DaysOfWeek rule) => GapsOf(rule).Contains(1);
}

/// <summary>One rule with the hours it may use.</summary>
/// <param name="Rule">The rule as it is set.</param>
/// <param name="Spans">Spans of the controller's day that are permitted on every one of its dates.</param>
internal sealed record WaterDayPhase(DayRule Rule, ListOf<PermittedSpan> Spans)
{
    /// <summary>Dates are checked over four years and a month: weekdays, month ends and a leap day all come round.</summary>
    private const int DaysChecked = 1500;

    public static WaterDayPhase Of(
        DayRule rule, Profile profile, PermittedTimes permitted, ListOf<PermittedSpan> hours, LocalDate firstDate)
    {
        LocalDate[] dates = hours.All(h => h.OpenedOn.Count == 0)
            ? []
            : [.. Enumerable.Range(0, DaysChecked).Select(d => firstDate.PlusDays(d)).Where(date => rule.WatersOn(date, profile))];
        Dictionary<int, bool> permittedOn = hours.SelectMany(h => h.OpenedOn).Distinct().ToDictionary(
            o => o, o => dates.All(date => permitted.Permits(date.PlusDays(o))));
        return new WaterDayPhase(rule, PermittedSpan.Together(hours.Where(h => h.OpenedOn.All(o => permittedOn[o]))));
    }
}
