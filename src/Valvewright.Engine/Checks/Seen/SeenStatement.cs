using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>One statement about what was seen.</summary>
internal sealed partial class SeenStatement(string text, ClockStyle clock)
{
    private static readonly string[] Numbers = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    private static readonly string[] Cifras = ["cero", "un", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez"];

    private static readonly HashSet<string> Known =
    [
        .. ("a all also am an and any are at away be been came come comes coming day days daily did didn't do does doesn't done each ever every for from has have hour hours i in is it it's its "
            + "itself just last least long longer lot many min mins minute minutes month more morning evening afternoon never night nights nightly no not nothing now off often on once only or our out over past pm ran "
            + "run running runs saw see seen since so sometimes sprinkler sprinklers st start started starts station stays still stops system than that the there they this time times to today "
            + "too turn turned turns twice thrice two used valve water watered watering waters was watered we week weeks went were what when which while whole with won't would yesterday zone zones "
            + "again always both after before x noon midnight half about around lawn lawns grass garden "
            + "al agua ahora cada con de del desde dia dias diario durante el en es esta estacion estaciones est hace horas hora la las lo los manana mediodia medianoche media minutos minuto mas nada ni ninguna "
            + "noche noches no nunca por porque que rego regado riega riegan riego riegos se semana semanas siempre solo son su tarde todas todo todos una un veces vez y zona zonas ha pm").Split(' '),
        .. Numbers, .. Cifras,
    ];

    /// <summary>What it says; null where nothing was understood.</summary>
    public void Read(out Observation? observation, out Sentence taken, out Sentence otherwise, out Sentence why)
    {
        (taken, otherwise, why) = ("", "", "");
        int station = StationNumber().Match(text) is { Success: true } s ? int.Parse(s.Groups[1].ValueSpan, CultureInfo.InvariantCulture) : 0;
        bool negative = Negative().IsMatch(text);
        (LocalTime? time, bool half) = Time();
        observation = Of(station, negative, time);
        if (observation is null)
        {
            why = "Not understood; left out. Say when or how often it ran, or what never does, as: ran at 19:30 on Tuesday; twice a night; nothing for a week; station 2 never comes on";
        }
        else if (half && time is { } morning)
        {
            (taken, otherwise, why) = (Shown(morning), Shown(morning.PlusHours(12)), "a.m. or p.m. was not said");
        }
        else if (Strange() is { Length: > 0 } words)
        {
            (taken, why) = (Short(observation), (Sentence)$"Not understood in it, and left out: {words}");
        }
    }

    /// <summary>The heart of an observation in a few words; the whole of it is said back beside the doubt.</summary>
    private static Sentence Short(Observation observation) => observation switch
    {
        RanAt s => (Sentence)$"at {Shown(s.Time)}",
        TimesADay s => (Sentence)$"{s.Times} times",
        NothingFor or RanOn { Ran: false } => "it did not run",
        _ => "it ran",
    };

    private Observation? Of(int station, bool negative, LocalTime? time)
    {
        int[] dates = [.. Ordinal().Matches(text).Select(m => int.Parse(m.Groups[1].Success ? m.Groups[1].ValueSpan : m.Groups[2].ValueSpan, CultureInfo.InvariantCulture)).Where(d => d is >= 1 and <= 31)];
        if (dates.Length > 0 && !negative && time is null)
        {
            return new RanOnDates(dates.ToListOf(), station);
        }

        IsoDayOfWeek? weekday = Word().Matches(text).Select(m => CalendarNames.WeekdayOf(m.Value)).FirstOrDefault(d => d is not null);
        if (time is { } at)
        {
            return new RanAt(at, weekday, station, !negative);
        }

        if (negative && weekday is { } dry)
        {
            return new RanOn(dry, Ran: false, station);
        }

        if (negative)
        {
            return station > 0 || Nothing().IsMatch(text) ? new NothingFor(Days(), station) : null;
        }

        if (Times() is { } times)
        {
            return new TimesADay(times, Night().IsMatch(text), station);
        }

        if (Minutes() is { } minutes)
        {
            return new RunsFor(minutes, station);
        }

        return Daily().IsMatch(text) ? new RanDaily(station) : weekday is { } wet ? new RanOn(wet, Ran: true, station) : null;
    }

    private (LocalTime? Time, bool Half) Time()
    {
        if (Noon().IsMatch(text))
        {
            return (LocalTime.Noon, false);
        }

        if (Midnight().IsMatch(text))
        {
            return (LocalTime.Midnight, false);
        }

        // A number alone is no time: it may be a station, or a count.
        if (ClockTime().Matches(text).FirstOrDefault(m => m.Groups[2].Success || m.Groups[3].Success) is not { } match)
        {
            return (null, false);
        }

        int hour = int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
        int minute = match.Groups[2].Success ? int.Parse(match.Groups[2].ValueSpan, CultureInfo.InvariantCulture) : 0;
        if (hour > 23 || minute > 59)
        {
            return (null, false);
        }

        string half = match.Groups[3].Value is { Length: > 0 } said ? said[..1] : PartOfDay();
        bool canBeEither = hour is >= 1 and <= 12;
        return half.Length > 0 && canBeEither
            ? (new LocalTime(hour % 12 + (half == "p" ? 12 : 0), minute), false)
            : (new LocalTime(canBeEither && clock == ClockStyle.Hours12 ? hour % 12 : hour, minute), canBeEither && clock == ClockStyle.Hours12);
    }

    private string PartOfDay() => Afternoon().IsMatch(text) ? "p" : Morning().IsMatch(text) ? "a" : "";

    private int? Times()
    {
        if (Twice().IsMatch(text))
        {
            return 2;
        }

        if (Once().IsMatch(text))
        {
            return 1;
        }

        if (Thrice().IsMatch(text))
        {
            return 3;
        }

        return NTimes().Match(text) is { Success: true } n && Number(n.Groups[1].Value) is > 0 and var times ? times : null;
    }

    private int? Days()
    {
        Match match = DaysOrWeeks().Match(text);
        if (!match.Success)
        {
            return null;
        }

        int n = Number(match.Groups[1].Value) ?? 1;
        return Math.Clamp(n, 1, 400) * (match.Groups[2].Value[0] is 'w' or 's' ? 7 : match.Groups[2].Value[0] == 'm' ? 30 : 1);
    }

    private int? Minutes()
    {
        Match match = MinutesOrHours().Match(text);
        return match.Success && Number(match.Groups[1].Value) is > 0 and var n ? n * (match.Groups[2].Value[0] == 'h' ? 60 : 1) : null;
    }

    private static int? Number(string word)
    {
        if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out int n))
        {
            return n <= 1440 ? n : null;
        }

        int english = Array.IndexOf(Numbers, word), spanish = Array.IndexOf(Cifras, word);
        return word is "a" or "an" or "una" or "the" or "la" or "whole" or "toda" or "last" or "past" ? 1 : english >= 0 ? english : spanish >= 0 ? spanish : null;
    }

    private string Strange() => string.Join(", ", Word().Matches(text).Select(m => m.Value).Where(w => !Known.Contains(w) && CalendarNames.WeekdayOf(w) is null && !Lexicon.Knows(w)).Distinct());

    private static string Shown(LocalTime time) => $"{time.Hour:00}:{time.Minute:00}";

    [GeneratedRegex(@"\b(?:stations?|st|zones?|valve|estacion(?:es)?|est|zonas?)\s*#?\s*([0-9]{1,2})\b")]
    private static partial Regex StationNumber();

    [GeneratedRegex(@"\b(?:never|not|nothing|no|nada|nunca|ninguna?|didn't|doesn't|won't|don't|hasn't|isn't|sin)\b")]
    private static partial Regex Negative();

    [GeneratedRegex(@"\b(?:nothing|nada|no water|not water\w*|(?:does|did|has) ?n[o']t|never|nunca|no riega|no ha)\b")]
    private static partial Regex Nothing();

    [GeneratedRegex(@"\b(?:([0-9]{1,2})(?:st|nd|rd|th)|(?:el|dia|the)\s+([0-9]{1,2})(?![0-9:.h]))\b")]
    private static partial Regex Ordinal();

    [GeneratedRegex(@"[a-z']+")]
    private static partial Regex Word();

    [GeneratedRegex(@"\b([0-9]{1,2})(?:[:.h]([0-9]{2}))?\s*(a\.?m\b|p\.?m\b)?")]
    private static partial Regex ClockTime();

    [GeneratedRegex(@"\b(?:at noon|mediodia)\b")]
    private static partial Regex Noon();

    [GeneratedRegex(@"\b(?:midnight|medianoche)\b")]
    private static partial Regex Midnight();

    [GeneratedRegex(@"\b(?:evening|afternoon|tonight|tarde|at night|noche)\b")]
    private static partial Regex Afternoon();

    [GeneratedRegex(@"\b(?:morning|manana)\b")]
    private static partial Regex Morning();

    [GeneratedRegex(@"\b(?:twice|dos veces|2 ?x)\b")]
    private static partial Regex Twice();

    [GeneratedRegex(@"\b(?:once|una vez)\b")]
    private static partial Regex Once();

    [GeneratedRegex(@"\b(?:thrice)\b")]
    private static partial Regex Thrice();

    [GeneratedRegex(@"\b([0-9]{1,2}|[a-z]+) ?(?:times|veces|x)\b")]
    private static partial Regex NTimes();

    [GeneratedRegex(@"\b(?:night|nights|nightly|noche|noches)\b")]
    private static partial Regex Night();

    [GeneratedRegex(@"\b(?:([0-9]{1,3}|[a-z]+)\s+)?(days?|weeks?|months?|dias?|semanas?|mes(?:es)?)\b")]
    private static partial Regex DaysOrWeeks();

    [GeneratedRegex(@"\b([0-9]{1,4}|[a-z]+)\s*(min\w*|hours?|horas?|h)\b")]
    private static partial Regex MinutesOrHours();

    [GeneratedRegex(@"\b(?:every (?:single )?(?:day|night|morning|evening)|daily|nightly|each (?:day|night)|cada (?:dia|noche)|tod(?:o|a)s l(?:o|a)s (?:dias|noches))\b")]
    private static partial Regex Daily();
}
