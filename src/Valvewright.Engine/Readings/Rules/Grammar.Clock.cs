using NodaTime;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>What the clock shows, and when it was read.</summary>
internal sealed partial class Grammar
{
    /// <summary>"clock Tue 3:12 pm", "it says Tue 3:12 PM", "son las 15:12", "now 2026-07-14 15:20".</summary>
    private IEnumerable<Step> Clock(int at, Spot spot)
    {
        if (hear.Is(at, Sense.Now) && Moment(at + 1, true) is { Shown: { Date: { } date, Time: { } time } } now)
        {
            yield return new Step(at, now.End, PerStep, Topic.None, [new SaysNow(date + time)], now.Asks);
        }

        int next = at;
        double cost;
        if (hear.Is(at, Sense.Clock))
        {
            (next, cost) = (at + 1, 0);
            next = hear.Is(next, Sense.Time) ? next + 1 : next;
        }
        else if (hear.Is(at, Sense.Time) && !hear.IsText(at, "times", "tiempos") && !hear.Is(at + 1, Sense.Start)
            && spot.Topic != Topic.Starts)
        {
            // "the time is", "time on it is", "la hora del reloj es"
            int word = at + 1;
            while (word - at < 5 && (hear.IsText(word, "on", "it", "of", "del", "de", "el", "la", "the", "en", "there")
                || hear.Is(word, Sense.Clock) || hear.Is(word, Sense.Controller)))
            {
                word++;
            }

            (next, cost) = hear.IsText(word, "is", "es", "says", "shows", "dice", "marca", ":", "was") ? (word, 0.1) : (at, 0);
        }
        else if ((hear.Is(at, Sense.Says) && !hear.IsText(at, "read", "reading", "puesto", "tiene") && (at == 0 || hear.IsBeginning(at)
            || hear.IsText(at - 1, "it", "today", "que", "hoy", "ahora", "now", "also", "clock", "reloj", "display")))
            || (hear.IsText(at, "it's", "son", "es") && hear.IsBeginning(at)))
        {
            (next, cost) = (at, 0.15);
        }
        else
        {
            yield break;
        }

        if (next == at && !hear.Is(at, Sense.Says) && !hear.IsText(at, "it's", "son", "es"))
        {
            yield break;
        }

        if (Moment(next, false) is { } moment && (hear.Is(at, Sense.Clock) || moment.Shown.Time is not null)
            && !hear.IsText(at, "it's") | moment.Shown.Weekday is not null)
        {
            yield return new Step(at, moment.End, cost + PerStep + (spot.HasProgram && cost > 0.1 ? 0.3 : 0), Topic.None,
                [new SaysClock(moment.Shown)], moment.Asks);
        }
    }

    /// <summary>Weekday, date and time in any order, as far as they follow; null where none does.</summary>
    private (ClockShown Shown, int End, List<Question> Asks)? Moment(int at, bool dated)
    {
        LocalTime? time = null;
        IsoDayOfWeek? weekday = null;
        LocalDate? date = null;
        List<Question> asks = [];
        int next = at, end = at;
        while (hear[next] is { } token && !(token.Kind == TokenKind.Break && end > at))
        {
            if (date is null && hear.Date(next) is { } day)
            {
                (date, next) = (day.Date, day.End);
                asks.AddRange(day.Asks is { } asked ? [asked] : []);
                end = next;
            }
            else if (weekday is null && hear.Weekday(next) is { } named && !hear.Is(next + 1, Sense.Through))
            {
                (weekday, next) = (named, next + 1);
                end = next;
            }
            else if (time is null && hear.Times(next).FirstOrDefault(t => t.Form != TimeForm.Bare) is { } heard)
            {
                (time, next) = (heard.Time, heard.End);
                asks.AddRange(heard.Asks is { } asked ? [asked] : []);
                end = next;
            }
            else if (hear.IsLetter(next) || !(token.IsPause || token.Is(Sense.Filler) || token.Is(Sense.Clock) || token.Is(Sense.Says)
                || token.Is(Sense.Is) || token.Is(Sense.Time) || token.Is(Sense.Hedge)) || Numerals.Knows(token.Text))
            {
                break;
            }
            else if (token.IsPause && end > at && time is not null)
            {
                // After a comma only what completes the moment belongs to it.
                int after = next + 1;
                while (hear.IsText(after, "and", "y", "it's", "es", "on", "el", "dia", "day", "is"))
                {
                    after++;
                }

                if (weekday is not null || hear.Weekday(after) is null || !hear.IsEnd(after + 1) || token.Text is "." or "\n" or ";")
                {
                    break;
                }

                next = after;
            }
            else
            {
                next++;
            }
        }

        if (time is null && weekday is null && date is null)
        {
            return null;
        }

        if (date is { } full && weekday is { } of && full.DayOfWeek != of)
        {
            asks.Add(new Question($"{full:uuuu-MM-dd}", of.ToString(), $"That date is a {(Sentence)full.DayOfWeek.ToString()}"));
        }

        return (new ClockShown(time, weekday, date), end, asks);
    }
}
