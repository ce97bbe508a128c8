using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Spoken;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>Intervals and where they are.</summary>
internal sealed partial class Grammar
{
    /// <summary>"every 11 days", "every third day", "every other day", "un día sí y otro no".</summary>
    private IEnumerable<Step> Intervals(int at, Spot spot)
    {
        if (hear.Is(at, Sense.Every))
        {
            int next = at + 1;
            while (next - at < 3 && hear.IsText(next, "of", "de", "is", "es", ":", "=", "=", "set", "to", "con", "every", "cada"))
            {
                next++;
            }

            if (hear.Is(next, Sense.Other) && hear.Is(next + 1, Sense.Day))
            {
                yield return Interval(at, next + 2, 2, 0);
            }
            else if (hear.Ordinal(next) is { } ordinal && hear.Is(ordinal.End, Sense.Day))
            {
                bool spanish = hear.IsText(next, "tercer") && hear.IsText(at, "cada");
                yield return spanish
                    ? Interval(at, ordinal.End + 1, 2, 0,
                        new Question("every 2 days", "every 3 days", "In some places this means every other day"))
                    : Interval(at, ordinal.End + 1, ordinal.Value, 0);
            }
            else if (hear.Number(next) is { Value: >= 1 and <= LongestInterval } number)
            {
                bool days = hear.Is(number.End, Sense.Day);
                bool other = hear.Is(number.End, Sense.Minute) || hear.Is(number.End, Sense.Hour) || hear.Is(number.End, Sense.Station)
                    || hear.IsGlued(number.End, ":");
                if (!other)
                {
                    yield return Interval(at, days ? number.End + 1 : number.End, number.Value, days ? 0 : 0.3);
                }
            }
        }

        int joined = hear.Number(at) is { Value: >= 2 and <= LongestInterval } n ? n.End : -1;
        joined = hear.IsText(joined, "-") ? joined + 1 : joined;
        if (joined > 0 && hear.Is(joined, Sense.Day) && hear.Is(joined + 1, Sense.Interval))
        {
            yield return Interval(at, joined + 2, hear.Number(at)!.Value.Value, 0);
        }

        int other1 = hear.IsText(at, "alternate", "alternating", "alternos") ? at + 1 : hear.Is(at, Sense.Day)
            && hear.IsText(at + 1, "alternos", "alternados") ? at + 2
            : hear.Is(at, Sense.Day) && hear.IsText(at + 1, "por") && hear.IsText(at + 2, "medio") ? at + 3 : -1;
        if (other1 > 0)
        {
            yield return Interval(at, hear.Is(other1, Sense.Day) ? other1 + 1 : other1, 2, 0);
        }

        // "un día sí y otro no", "one day on one day off"
        int onDay = hear.IsText(at, "un", "one", "1") && hear.Is(at + 1, Sense.Day)
            && (hear.Is(at + 2, Sense.Yes) || hear.Is(at + 2, Sense.On)) ? at + 3 : -1;
        while (onDay > 0 && onDay - at < 9 && (hear.IsText(onDay, "y", "and", "un", "uno", "otro", "one", "the", "next", "dia", "day")
            || hear[onDay]?.Kind == TokenKind.Pause))
        {
            onDay++;
        }

        if (onDay > 0 && hear.IsText(onDay, "no", "off"))
        {
            yield return Interval(at, onDay + 1, 2, 0);
        }

        Step Interval(int from, int end, int days, double cost, Question? asks = null) =>
            Make(from, end, cost, Topic.Days, new SaysDays(new ReadDays(DayRuleKind.Interval, [], days)), asks);
    }

    /// <summary>"2 left", "faltan 2 días", "next in 2 days", "next 14 July 2026".</summary>
    private IEnumerable<Step> Counts(int at, Spot spot)
    {
        if (hear.Number(at) is { Value: >= 0 and <= LongestInterval } number)
        {
            int end = hear.Is(number.End, Sense.Day) ? number.End + 1 : number.End;
            int left = hear.Is(end, Sense.Left) ? end + 1 : hear.IsText(end, "to") && hear.IsText(end + 1, "go") ? end + 2 : -1;
            if (left > 0)
            {
                yield return Make(at, left, 0, Topic.Days, new SaysCount(number.Value, null));
            }
        }

        if (hear.Is(at, Sense.Left) || hear.Is(at, Sense.Next))
        {
            int next = at + 1;
            while (next - at < 5 && hear.IsText(next, "watering", "water", "waters", "run", "riego", "is", "in", "on", "en", "el", "de",
                ":", "dentro", "le", "es", "due", "para", "regar", "riega"))
            {
                next++;
            }

            if (hear.Date(next) is { } date && hear.Is(at, Sense.Next))
            {
                yield return Make(at, date.End, 0, Topic.Days, new SaysCount(null, date.Date), date.Asks);
            }
            else if (hear.Number(next) is { Value: >= 0 and <= LongestInterval } days
                && (hear.Is(at, Sense.Left) || hear.Is(days.End, Sense.Day)))
            {
                yield return Make(at, hear.Is(days.End, Sense.Day) ? days.End + 1 : days.End, 0, Topic.Days,
                    new SaysCount(days.Value, null));
            }
        }
    }
}
