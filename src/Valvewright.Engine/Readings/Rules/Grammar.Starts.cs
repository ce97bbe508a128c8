using NodaTime;
using Valvewright.Engine.Readings.Spoken;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>Start times.</summary>
internal sealed partial class Grammar
{
    private const int MostStarts = 16;

    private IEnumerable<Step> Starts(int at, Spot spot)
    {
        int heading = StartHeading(at);
        if (heading > at)
        {
            yield return Make(at, heading, 0, Topic.Starts);
            int none = hear.SkipSmall(heading);
            if (hear.Is(none, Sense.None) || hear.Is(none, Sense.Off))
            {
                yield return Make(at, none + 1, 0, Topic.Starts, new SaysNone(Topic.Starts));
            }
        }

        if (spot.Topic == Topic.Starts && hear.Is(at, Sense.None)
            && hear.IsText(at, "none", "nothing", "ninguno", "ninguna", "nada", "empty", "blank", "-"))
        {
            yield return Make(at, WhichOnes(at + 1), hear.IsText(at, "-") ? 1 : 0.1, Topic.Starts, new SaysNone(Topic.Starts));
        }

        // "no start times", "no tiene horas de inicio", "sin inicios"
        if (hear.Is(at, Sense.Not) || hear.IsText(at, "none"))
        {
            int next = at + 1;
            while (next - at < 4 && hear.IsText(next, "any", "has", "have", "tiene", "hay", "the", "of", "with"))
            {
                next++;
            }

            int after = StartHeading(next);
            if (after > next)
            {
                yield return Make(at, after, 0, Topic.Starts, new SaysNone(Topic.Starts));
            }
        }

        foreach (Step step in Numbered(at, heading, spot).Concat(Bare(at, spot)))
        {
            yield return step;
        }
    }

    /// <summary>Passes "for three and four" after "none".</summary>
    private int WhichOnes(int at)
    {
        int end = at, next = hear.IsText(at, "for", "on", "in", "en", "para", "at") ? at + 1 : at;
        while (next > at && (hear.Ordinal(next) ?? hear.Number(next)) is { } which)
        {
            end = which.End;
            next = hear.IsText(end, "and", "y", "or", ",") ? end + 1 : end;
            if (next == end)
            {
                break;
            }
        }

        return end;
    }

    /// <summary>"starts", "start times", "horas de inicio"; where it ends, or the place itself.</summary>
    private int StartHeading(int at)
    {
        int number = hear.Number(at) is { Value: < 10 } n && (hear.Is(n.End, Sense.Time) || hear.Is(n.End, Sense.Start)) ? n.End : at;
        if (hear.Is(number, Sense.Start))
        {
            return hear.Is(number + 1, Sense.Time) ? number + 2 : number + 1;
        }

        int end = hear.Is(number, Sense.Time) ? number + 1 : number;
        end = end > number && hear.IsText(end, "de", "del") ? end + 1 : end;
        return end > number && hear.Is(end, Sense.Start) ? end + 1 : at;
    }

    /// <summary>"start 1 5:00", "start two off", "first start 05:00", "(1) 07:30", "2: 11:15", "third one is off".</summary>
    private IEnumerable<Step> Numbered(int at, int heading, Spot spot)
    {
        bool opened = heading > at;
        int place = opened ? hear.IsText(heading, "number", "no", "numero") ? heading + 1 : heading : at;
        bool bracket = hear.IsText(place, "(", "#");
        place = bracket ? place + 1 : place;
        if (hear.Ordinal(place) is { } ordinal)
        {
            int after = StartHeading(ordinal.End);
            bool says = opened || after > ordinal.End || spot.Topic == Topic.Starts || hear.Is(ordinal.End, Sense.Time);
            int end = after > ordinal.End ? after : hear.Is(ordinal.End, Sense.Time) || hear.IsText(ordinal.End, "one")
                ? ordinal.End + 1 : ordinal.End;
            if (says && ordinal.Value <= MostStarts)
            {
                foreach (Step step in Valued(at, end, 0, false))
                {
                    yield return step;
                }
            }
        }

        if (hear.Number(place) is { } number && number.Value is >= 1 and <= MostStarts)
        {
            bool marked = hear.IsText(number.End, ")", ":", ".") || (hear.IsText(number.End, "-", "=") && !hear[number.End]!.Glued)
                || bracket || opened;
            if (!(opened || (spot.HasProgram && (spot.Topic is Topic.Starts or Topic.None))) || (!marked && spot.Topic != Topic.Starts)
                || (number.Value > 8 && !opened))
            {
                yield break;
            }

            bool clock = hear.IsGlued(number.End, ":") && hear[number.End + 1] is { Glued: true, Kind: TokenKind.Number };
            if (!clock)
            {
                foreach (Step step in Valued(
                    at, hear.IsText(number.End, ")", ":", ".") ? number.End + 1 : number.End, marked ? 0 : 0.5, !opened))
                {
                    yield return step;
                }
            }
        }
    }

    /// <summary>What is at a numbered start: a time, perhaps of another program, or off.</summary>
    private IEnumerable<Step> Valued(int at, int end, double cost, bool needsClock)
    {
        int next = Past(end);
        List<Said> says = [];
        if (hear.Is(next, Sense.Program) || hear.IsLetter(next))
        {
            int letter = hear.Is(next, Sense.Program) ? next + 1 : next;
            if (hear.IsLetter(letter))
            {
                says.Add(new OpensProgram(hear[letter]!.Typed, false));
                next = Past(letter + 1);
            }
        }

        // "start three and four off"
        while (hear.IsText(next, "and", "y") && (hear.Ordinal(next + 1) ?? hear.Number(next + 1)) is { } more
            && !hear.Is(next + 1, Sense.Start))
        {
            next = Past(more.End);
        }

        if (hear.Is(next, Sense.Off) || hear.Is(next, Sense.None))
        {
            int dashes = next + 1;
            yield return new Step(at, dashes, cost + PerStep, Topic.Starts, [.. says, new SaysNone(Topic.Starts)], []);
        }

        if (hear.IsText(next, "-") && hear.IsText(next + 1, "-"))
        {
            int dashes = next;
            while (hear.IsText(dashes, "-", ":"))
            {
                dashes++;
            }

            yield return new Step(at, dashes, cost + PerStep, Topic.Starts, [.. says, new SaysNone(Topic.Starts)], []);
        }

        foreach (HeardTime time in hear.Times(next).Where(t => t.Form != TimeForm.Bare || !needsClock))
        {
            yield return new Step(at, time.End, cost + PerStep + (time.Form == TimeForm.Bare ? 0.4 : 0), Topic.Starts,
                [.. says, new SaysStart(time.Time)], time.Asks is null ? [] : [time.Asks]);
        }

        int Past(int from)
        {
            int word = from;
            while (word - from < 5 && hear.IsText(word, "of", "is", "at", "for", "says", "shows", "es", "esta", "a", "las", "la", "del",
                "de", "en", "el", ":", "=", "-", "in", "on", "the", "to", "set", ",", "son", "one", "que", "time", "lo", "queda")
                    && !hear.IsLetter(word)
                && !(hear.IsText(word, "-") && hear.IsText(word + 1, "-")))
            {
                word++;
            }

            return word;
        }
    }

    /// <summary>A time of day where a start time can stand.</summary>
    private IEnumerable<Step> Bare(int at, Spot spot)
    {
        foreach (HeardTime time in hear.Times(at))
        {
            double cost = (spot.Topic, time.Form) switch
            {
                (Topic.Starts, TimeForm.Bare) => 0.5,
                (Topic.Starts, _) => 0,
                (Topic.Runs, TimeForm.Spoken) => 0.2,
                (Topic.Runs, TimeForm.Clock) => 0.6,
                (Topic.Runs, TimeForm.Digits) => 1.5,
                (_, TimeForm.Spoken) => 0,
                (_, TimeForm.Clock) => 0.1,
                (_, TimeForm.Digits) => 0.7,
                _ => 3.2,
            };
            cost = time.Introduced ? Math.Min(cost, 0.3) : cost;
            yield return Make(at, time.End, cost, Topic.Starts, new SaysStart(time.Time), time.Asks);
        }
    }
}
