using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>Watering days.</summary>
internal sealed partial class Grammar
{
    private const int LongestInterval = 365;

    private static readonly ListOf<IsoDayOfWeek> EveryDay = [.. Enumerable.Range(1, 7).Select(d => (IsoDayOfWeek)d)];

    private IEnumerable<Step> Days(int at, Spot spot) => DayHeadings(at, spot).Concat(WholeWeeks(at, spot)).Concat(NamedDays(at, spot))
        .Concat(Intervals(at, spot)).Concat(Counts(at, spot));

    private IEnumerable<Step> DayHeadings(int at, Spot spot)
    {
        int heading = DayHeading(at);
        if (heading > at)
        {
            yield return Make(at, heading, 0.05, Topic.Days);
            int next = hear.SkipSmall(heading);
            if (hear.Is(next, Sense.None) && hear.IsText(next, "none", "nothing", "ninguno", "nada", "-", "empty"))
            {
                yield return Make(at, next + 1, 0, Topic.Days, new SaysNone(Topic.Days));
            }
        }

        if (spot.Topic == Topic.Days && hear.IsText(at, "none", "ninguno", "nada"))
        {
            yield return Make(at, at + 1, 0.1, Topic.Days, new SaysNone(Topic.Days));
        }

        if (hear.Is(at, Sense.Not))
        {
            int next = at + 1;
            while (next - at < 3 && hear.IsText(next, "any", "has", "tiene", "hay", "have"))
            {
                next++;
            }

            int after = DayHeading(next);
            if (after > next)
            {
                yield return Make(at, after, 0, Topic.Days, new SaysNone(Topic.Days));
            }
        }
    }

    /// <summary>"days", "watering days", "días de riego", "days of the week"; where it ends, or the place itself.</summary>
    private int DayHeading(int at)
    {
        int word = hear.Is(at, Sense.Run) && hear.Is(at + 1, Sense.Day) ? at + 1 : at;
        if (!hear.Is(word, Sense.Day))
        {
            return at;
        }

        word++;
        if (hear.IsText(word, "de") && hear.Is(word + 1, Sense.Run))
        {
            return word + 2;
        }

        return hear.IsText(word, "of") && hear.IsText(word + 1, "the") && hear.Is(word + 2, Sense.Week) ? word + 3 : word;
    }

    /// <summary>"every day", "weekdays", "weekends", "odd days", "todos los días".</summary>
    private IEnumerable<Step> WholeWeeks(int at, Spot spot)
    {
        int start = hear.IsText(at, "on", "los", "las", "de", "the", "a", "en") && !hear.IsLetter(at) ? at + 1 : at;
        if (hear.Is(start, Sense.Daily) || (hear.IsText(at, "a") && hear.IsText(start, "diario")))
        {
            yield return Make(at, start + 1, 0, Topic.Days, new SaysWeekdays(EveryDay));
        }

        bool cada = hear.IsText(at, "cada");
        int day = hear.Is(at, Sense.All) || cada ? at + 1 : at;
        while (day > at && day - at < 4 && hear.IsText(day, "los", "lo", "the", "single", "el", "of"))
        {
            day++;
        }

        if (day > at && hear.Is(day, Sense.Day) && !(cada && day > at + 1))
        {
            yield return Make(at, day + 1, 0, Topic.Days, new SaysWeekdays(EveryDay));
        }

        if (day > at && hear.Is(day, Sense.Week) || (hear.IsText(at, "todos", "all") && spot.Topic == Topic.Days))
        {
            yield return Make(at, hear.Is(day, Sense.Week) ? day + 1 : at + 1, 0.4, Topic.Days, new SaysWeekdays(EveryDay));
        }

        // "todos menos domingo", "all but Sunday"
        if (hear.IsText(at, "todos", "all", "everything") && hear.Is(at + 1, Sense.Except) && hear.WeekdayList(at + 2) is not null)
        {
            yield return Make(at, at + 1, 0, Topic.Days, new SaysWeekdays(EveryDay));
        }

        int? weekdays = hear.Is(start, Sense.Weekdays) ? start + 1
            : hear.IsText(start, "week") && hear.IsText(start + 1, "days") ? start + 2
            : hear.Is(start, Sense.Day) && hear.IsText(start + 1, "de", "entre") && hear.Is(start + 2, Sense.Week) ? start + 3
            : hear.Is(start, Sense.Day) && hear.Is(start + 1, Sense.Weekdays) ? start + 2
            : hear.IsText(start, "entre") && hear.Is(start + 1, Sense.Week) ? start + 2
            : hear.IsText(start, "working", "work") && hear.Is(start + 1, Sense.Day) ? start + 2 : null;
        if (weekdays is { } end)
        {
            yield return Make(at, end, 0, Topic.Days, new SaysWeekdays(EveryDay.Take(5).ToListOf()));
        }

        int? weekend = hear.Is(start, Sense.Weekend) ? start + 1
            : hear.IsText(start, "week") && hear.IsText(start + 1, "ends", "end") ? start + 2
            : hear.IsText(start, "fin", "fines") && hear.IsText(start + 1, "de") && hear.Is(start + 2, Sense.Week) ? start + 3 : null;
        if (weekend is { } last)
        {
            yield return Make(at, last, 0, Topic.Days, new SaysWeekdays(EveryDay.Skip(5).ToListOf()));
        }

        int parity = hear.Is(start, Sense.Day) ? start + 1 : start;
        if (hear.Is(parity, Sense.Odd) || hear.Is(parity, Sense.Even))
        {
            int after = parity == start && hear.Is(parity + 1, Sense.Day) ? parity + 2 : parity + 1;
            yield return Make(at, after, 0, Topic.Days,
                new SaysDays(new ReadDays(hear.Is(parity, Sense.Odd) ? DayRuleKind.Odd : DayRuleKind.Even, [])));
        }
    }

    /// <summary>"Monday to Friday", "MWF", "except Sunday", "doesn't run on Monday".</summary>
    private IEnumerable<Step> NamedDays(int at, Spot spot)
    {
        if (hear.WeekdayList(at) is { } named)
        {
            bool shortWord = named.End == at + 1 && hear[at]!.Text.Length == 2;
            yield return Make(at, named.End, shortWord && spot.Topic != Topic.Days ? 0.4 : 0, Topic.Days, new SaysWeekdays(named.Days));
        }

        int less = hear.Is(at, Sense.Except) || hear.Is(at, Sense.Not) || hear.IsText(at, "no") ? at + 1 : at;
        if (less > at)
        {
            while (less - at < 4 && hear.IsText(less, "run", "runs", "water", "waters", "watering", "go", "riega", "regar", "corre", "on",
                "not", "no", "los", "el", "for", "que", "anda", "trabaja", "funciona"))
            {
                less++;
            }

            if (hear.WeekdayList(less) is { } except)
            {
                yield return Make(at, WithOr(except, out ListOf<IsoDayOfWeek> days), 0, Topic.Days, new SaysWeekdays(days, Less: true));
            }
            else if (hear.Is(less, Sense.Weekend))
            {
                yield return Make(at, less + 1, 0, Topic.Days, new SaysWeekdays(EveryDay.Skip(5).ToListOf(), Less: true));
            }
        }

        bool expected = spot.Topic == Topic.Days;
        if ((expected || spot.HasProgram) && hear.DayLetters(at, expected) is { } letters
            && (hear[at]!.Kind == TokenKind.Word || (expected && hear[at]!.Text == "-")))
        {
            double cost = (expected ? 0 : 0.2) + (hear[at]!.Text.Length == 1 && letters.End == at + 1 ? 0.6 : 0);
            yield return letters.Problem is { } choices
                ? Make(at, letters.End, cost + 0.3, Topic.Days, new SaysDays(Unsettled),
                    new Question("", choices, "The letters can mean more than one day"))
                : Make(at, letters.End, cost, Topic.Days, new SaysWeekdays(letters.Days));
        }

        // "not Sunday or Wednesday": after a denial "or" joins.
        int WithOr(HeardDays first, out ListOf<IsoDayOfWeek> days)
        {
            SortedSet<IsoDayOfWeek> all = [.. first.Days];
            int end = first.End;
            while (hear.IsText(end, "or", "o", "ni", "nor") && hear.WeekdayList(end + 1) is { } more)
            {
                all.UnionWith(more.Days);
                end = more.End;
            }

            days = all.ToListOf();
            return end;
        }
    }

    /// <summary>Days that could not be told: nothing is kept of them.</summary>
    public static ReadDays Unsettled { get; } = new(null, [], -1);

}
