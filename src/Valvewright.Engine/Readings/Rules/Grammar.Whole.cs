using NodaTime;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>The controller as a whole: its name, clock, percent adjust, on and off, rain delay.</summary>
internal sealed partial class Grammar
{
    private const int LongestName = 5;

    private IEnumerable<Step> Whole(int at, Spot spot) =>
        Name(at, spot).Concat(Clock(at, spot)).Concat(Percent(at, spot)).Concat(Hold(at, spot)).Concat(OnOrOff(at, spot));

    private IEnumerable<Step> Name(int at, Spot spot)
    {
        if (hear.Names.ControllerAt(hear, at) is { } known)
        {
            int end = hear.Is(known.End, Sense.Controller) ? known.End + 1 : known.End;
            yield return Make(at, hear.IsText(end, ":") ? end + 1 : end, 0, spot.Topic, new SaysController(known.Name));
        }

        if (!hear.Is(at, Sense.Controller) || !hear.IsText(at, "controller", "controlador", "programador"))
        {
            yield break;
        }

        int from = hear.IsText(at + 1, ":") ? at + 2 : at + 1;
        if (hear.Names.ControllerAt(hear, from) is { } named)
        {
            yield return Make(at, named.End, 0, Topic.None, new SaysController(named.Name));
        }

        int last = from;
        int common = 0;
        while (hear[last] is { Kind: TokenKind.Word } part)
        {
            common += Lexicon.Knows(part.Text) ? 1 : 0;
            last++;
        }

        if (last > from && last - from <= LongestName && hear[last] is not { Kind: not TokenKind.Break } && !hear.Is(from, Sense.Is)
            && !hear.Is(from, Sense.Off) && !hear.Is(from, Sense.On) && !hear.Is(from, Sense.Says) && hear[from]!.Kind == TokenKind.Word)
        {
            yield return Make(at, last, (hear.IsBeginning(at) ? 0.6 : 1.8) + (0.5 * common), Topic.None,
                new SaysController(Whole(from, last)));
        }

        string Whole(int first, int end) =>
            string.Concat(Enumerable.Range(first, end - first).Select(i => (i > first && !hear[i]!.Glued ? " " : "") + hear[i]!.Typed));
    }

    /// <summary>"percent 80", "80 %", "season at 100", "ajuste al ochenta por ciento", "seasonal one twenty".</summary>
    private IEnumerable<Step> Percent(int at, Spot spot)
    {
        int next = at;
        while (next - at < 6
            && (hear.Is(next, Sense.Adjust) || (next > at
                && (hear.IsText(next, "water", "de", "del", "por", "for", "riego", "factor", "level") || hear.Is(next, Sense.Percent)))))
        {
            next++;
        }

        next = next == at && hear.IsText(at, "water") && hear.Is(at + 1, Sense.Adjust) ? at + 2 : next;
        bool announced = next > at;
        int number = next;
        while (announced && number - next < 7
            && (hear.IsText(number, "at", "is", "to", "set", "al", "a", "en", "es", "esta", "shows", "says", "de", "marca", "dice", "the",
                "el", ":", "=", "around", "about", "como", ",", "he", "thinks", "cree", "creo", "maybe", "que", "i", "think", "she", "says",
                    "down", "up", "was", "it's", "puesto", "ahora", "now")))
        {
            number++;
        }

        if (!announced)
        {
            number = hear.IsText(at, "al", "at", "en", "el", "a") && !hear.IsLetter(at) ? at + 1 : at;
        }

        if (hear.Number(number) is not { } value)
        {
            yield break;
        }

        (int percent, int end) = value;

        // "one twenty"
        if (hear[number]!.Kind == TokenKind.Word && percent is 1 or 2 && hear.Number(end) is { Value: >= 5 and < 100 } rest
            && hear[end]!.Kind == TokenKind.Word && rest.Value >= 10)
        {
            (percent, end) = ((percent * 100) + rest.Value, rest.End);
        }

        int sign = hear.IsText(end, "por", "per") ? end + 1 : end;
        bool marked = hear.Is(sign, Sense.Percent) || (sign > end && hear.IsText(sign, "cent", "ciento"));
        if (!(announced || marked) || hear.IsGlued(end, ":") || (!marked && (hear.Is(end, Sense.Minute) || hear.Is(end, Sense.Hour))))
        {
            yield break;
        }

        int last = marked ? sign + 1 : end;
        Question? asks = percent > 400 ? new Question($"{percent} percent", "", "No controller goes that far") : null;
        yield return Make(at, last, marked || announced ? 0 : 0.4, Topic.None, new SaysPercent(percent), asks);
    }

    /// <summary>"rain delay 2 days", "hold 3", "no rain delay", "pausa por lluvia de dos días".</summary>
    private IEnumerable<Step> Hold(int at, Spot spot)
    {
        bool without = hear.IsText(at, "no", "sin", "without");
        int next = without ? at + 1 : at;
        next = without && hear.IsText(next, "hay", "tiene", "active") ? next + 1 : next;
        if (!without && hear.Number(at) is { Value: < 100 } lead)
        {
            int day = hear.IsText(lead.End, "-") ? lead.End + 1 : lead.End;
            int name = hear.Is(day, Sense.Day) ? day + 1 : day;
            name = hear.IsText(name, "of", "de") ? name + 1 : name;
            if (hear.Is(day, Sense.Day) && HoldName(name) is { } named)
            {
                yield return Make(at, named, 0, Topic.None, new SaysHold(lead.Value));
            }
        }

        if (HoldName(next) is not { } end)
        {
            yield break;
        }

        if (without)
        {
            yield return Make(at, end, 0, Topic.None, new SaysHold(0));
            yield break;
        }

        int value = end;
        while (value - end < 6 && (hear.IsText(value, "is", "set", "to", "for", "at", "of", "shows", "says", "de", "es", "esta", "por",
            "en", "marca", "a", ":", "=", "has", "with", "the", "puesta", "puesto", "dice", "left", "tiene")))
        {
            value++;
        }

        if (hear.Is(value, Sense.Off) || hear.Is(value, Sense.None) || (hear.IsText(value, "not") && hear.Is(value + 1, Sense.On)))
        {
            yield return Make(at, hear.IsText(value, "not") ? value + 2 : value + 1, 0, Topic.None, new SaysHold(0));
        }
        else if (hear.Number(value) is { } number)
        {
            bool hours = hear.Is(number.End, Sense.Hour) && number.Value % 24 == 0;
            int days = hours ? number.Value / 24 : number.Value;
            int last = hours || hear.Is(number.End, Sense.Day) ? number.End + 1 : number.End;
            last = hear.Is(last, Sense.Left) ? last + 1 : last;
            yield return Make(at, last, 0, Topic.None, new SaysHold(days),
                hours ? new Question($"{days} days", "", "Hours were said; the display counts days") : null);
        }
        else if (end - at > 1)
        {
            yield return Make(at, end, 1.2, Topic.None, new LeavesOut("for how many days is missing"));
        }
    }

    /// <summary>"rain delay", "hold", "pausa por lluvia"; where it ends, or null.</summary>
    private int? HoldName(int at)
    {
        int next = hear.IsText(at, "the", "el", "la", "a", "una", "un") ? at + 1 : at;
        if (hear.Is(next, Sense.Rain))
        {
            int joined = hear.IsText(next + 1, "-") ? next + 2 : next + 1;
            return hear.Is(joined, Sense.Hold) ? joined + 1 : null;
        }

        if (!hear.Is(next, Sense.Hold))
        {
            return null;
        }

        int by = hear.IsText(next + 1, "por", "de", "for") && hear.Is(next + 2, Sense.Rain) ? next + 3 : hear.Is(next + 1, Sense.Rain)
            ? next + 2 : next + 1;
        return by;
    }

    /// <summary>"controller is off", "switched off", "it's on", "no está apagado".</summary>
    private IEnumerable<Step> OnOrOff(int at, Spot spot)
    {
        int next = at;
        bool subject = false, denied = false;
        while (next - at < 9 && hear[next] is { } token)
        {
            if (hear.IsText(next, "not", "no", "isn't"))
            {
                denied = !denied;
            }
            else if (token.Is(Sense.Controller) || hear.IsText(next, "it", "it's", "everything", "whole", "thing", "lo", "todo", "esta"))
            {
                subject = true;
            }
            else if (!hear.IsText(next, "the", "is", "has", "been", "was", "turned", "switched", "set", "to", "el", "la", "tienen", "tiene",
                "se", "encuentra", "dial", "switch", "que", "in", "en", "modo", "now", "ahora", "currently", "completely", "still"))
            {
                break;
            }

            next++;
        }

        bool off = hear.Is(next, Sense.Off), on = hear.Is(next, Sense.On) && !hear.IsText(next, "activado", "activada");
        if (!off && !on)
        {
            yield break;
        }

        int end = next + 1;
        bool ends = hear.IsEnd(end) || hear.Is(end, Sense.And) || hear.Is(end, Sense.Controller) || (off && subject);
        if (hear.IsText(end, "el", "the") && hear.Is(end + 1, Sense.Controller))
        {
            (end, ends, subject) = (end + 2, true, true);
        }

        bool begins = hear.IsBeginning(at) || hear.IsText(at - 1, "and", "y", "but", "pero");
        bool verb = next > at;
        if (!ends || !(begins || subject))
        {
            yield break;
        }

        double cost = subject || (verb && begins) ? 0.1 : spot.HasProgram && hear[at - 1]?.Kind != TokenKind.Break ? 1 : 0.2;
        yield return Make(at, end, cost, Topic.None, new SaysOff(off != denied));
    }
}
