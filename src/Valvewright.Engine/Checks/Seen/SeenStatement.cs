using NodaTime;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>One statement about what was seen: understood as observations, or as a complaint that no setting explains, or asked
/// about.</summary>
internal sealed partial class SeenStatement
{
    private readonly Hearing hear;
    private readonly string plain;
    private readonly bool denied;
    private readonly ListOf<int> stations;

    public SeenStatement(string text, ClockStyle clock, SiteNames names)
    {
        plain = " " + string.Join(' ', Token.Cut(text, names.Known).Select(t => t.Text)) + " ";
        hear = new Hearing(Token.Cut(text, names.Known), null, clock, names);
        denied = SeenWords.Denial.IsMatch(plain);
        stations = Stations();
        Read();
    }

    /// <summary>What was seen; nothing where it was not understood.</summary>
    public List<Observation> Seen { get; } = [];

    /// <summary>What is no matter of settings; null for none.</summary>
    public SeenComplaint? Complaint { get; private set; }

    /// <summary>What must be asked; null where all is clear.</summary>
    public Question? Asks { get; private set; }

    private int Station => stations.Count == 1 ? stations[0] : 0;

    private bool Has(System.Text.RegularExpressions.Regex words) => words.IsMatch(plain);

    private void Read()
    {
        if (SeenWords.ComplaintIn(plain) is { } kind)
        {
            Complaint = new SeenComplaint(kind, Station);
            return;
        }

        if (Has(SeenWords.NotSeen) || (denied && (Has(SeenWords.Skips) || Has(SeenWords.Contrast))))
        {
            Refuse();
            return;
        }

        HeardTime[] times = [.. TimesOfDay(out bool isLoose)];
        ListOf<IsoDayOfWeek> weekdays = Weekdays();
        bool only = Has(SeenWords.Only), since = Has(SeenWords.Since);
        int? days = Days();
        if (since && weekdays.Count > 0 || Has(SeenWords.Vague) && times.Length == 0)
        {
            Refuse();
        }
        else if (Exceptions() is { Count: > 0 } dry)
        {
            // "nothing works except 4" is the opposite of "all work except 4".
            bool nothing = Has(SeenWords.Dry) || SeenWords.Denial.IsMatch(SeenWords.NotThat.Replace(plain, " "));
            Seen.AddRange(nothing ? [new OnlyStations(dry)] : dry.Select(Observation (s) => new NothingFor(null, s)));
        }
        else if (only && !denied && stations.Count > 0 && weekdays.Count == 0 && times.Length == 0 && Length() is null && Times() is null)
        {
            Seen.Add(new OnlyStations(stations));
        }
        else if (times.Length > 0)
        {
            SeenAt(times, isLoose, weekdays);
        }
        else if (weekdays.Count > 0 && (denied || Has(SeenWords.Skips)))
        {
            Seen.AddRange(weekdays.Select(d => new RanOn(d, Ran: false, Station)));
        }
        else if (only && weekdays.Count > 0)
        {
            Seen.Add(new RanOnlyOn(weekdays, Station));
        }
        else if (denied || Has(SeenWords.Dry))
        {
            Nothing(days);
        }
        else if (Dates() is { Count: > 0 } dates)
        {
            Seen.Add(new RanOnDates(dates, Station));
        }
        else if (Times() is { } often)
        {
            Seen.Add(new TimesADay(often, Has(SeenWords.Night), Station));
        }
        else if (Length() is { } minutes)
        {
            Seen.Add(new RunsFor(minutes, Station));
        }
        else if (Has(SeenWords.Daily))
        {
            Seen.Add(new RanDaily(Station));
        }
        else if (weekdays.Count > 0)
        {
            Seen.AddRange(weekdays.Select(d => new RanOn(d, Ran: true, Station)));
        }
        else
        {
            Refuse();
        }

        if (Seen.Count > 0 && Asks is null && Strange() is { Length: > 0 } strange)
        {
            Asks = new Question("", "", $"Not understood in it, and left out: {strange}");
        }
    }

    private void Refuse()
    {
        Asks = new Question("", "",
            "Not understood; left out. Say when or how often it ran, or what never does, as: ran at 19:30 on Tuesday; twice a night; " +
                "nothing for a week; station 2 never comes on");
    }

    /// <summary>A time of day, with the day it was on.</summary>
    private void SeenAt(HeardTime[] times, bool isLoose, ListOf<IsoDayOfWeek> weekdays)
    {
        foreach (LocalTime time in times.Select(t => t.Time).Distinct())
        {
            int? ago = Has(SeenWords.LastNight) ? time.Hour >= 12 ? 1 : 0 : Has(SeenWords.Yesterday) ? 1 : Has(SeenWords.Today) ? 0 : null;
            foreach (IsoDayOfWeek? day in weekdays.Count == 0 || ago is not null ? [null] : weekdays.Select(d => (IsoDayOfWeek?)d))
            {
                Seen.Add(new RanAt(time, day, Station, !denied) { DaysAgo = ago });
            }
        }

        if (isLoose)
        {
            LocalTime first = times[0].Time;
            Asks = new Question(Shown(first), Shown(first.PlusHours(12)), "am or pm was not given");
        }
    }

    private void Nothing(int? days)
    {
        bool never = Has(SeenWords.Never) || Has(SeenWords.Dry) || Has(SeenWords.Nothing);
        if (stations.Count > 0)
        {
            Seen.AddRange(stations.Select(s => new NothingFor(days, s)));
        }
        else if (days is not null || (never && !Has(SeenWords.Yesterday) && !Has(SeenWords.Today)))
        {
            Seen.Add(new NothingFor(days));
        }
        else
        {
            Refuse();
        }
    }

    /// <summary>The times of day said; where no part of the day was said with one, the words around tell which.</summary>
    private List<HeardTime> TimesOfDay(out bool isLoose)
    {
        List<HeardTime> times = [];
        bool anyOpen = false, anySettled = false;
        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            if (TimeAt(at, out bool open, out bool settled) is { } heard)
            {
                times.Add(heard);
                (anyOpen, anySettled) = (anyOpen | open, anySettled | settled);
                at = heard.End - 1;
            }
        }

        // "at 6 and at 9 at night": the night may be of the last one only.
        isLoose = anyOpen || (times.Count > 1 && anySettled);
        return times;
    }

    private HeardTime? TimeAt(int at, out bool isOpen, out bool isSettled)
    {
        (isOpen, isSettled) = (false, false);
        foreach (HeardTime heard in hear.Times(at))
        {
            bool counts = heard.Form is TimeForm.Clock or TimeForm.Spoken
                || (heard.Introduced && !hear.Is(heard.End, Sense.Minute) && !hear.Is(heard.End, Sense.Hour));
            if (!counts || (hear.Number(at) is not null
                && hear.Lengths(at).Any(l => l.HasUnit && l.End >= heard.End && heard.Form == TimeForm.Bare)))
            {
                continue;
            }

            bool open = heard.Asks is not null || (heard.Form is TimeForm.Bare or TimeForm.Digits && heard.Time.Hour is >= 1 and <= 12);
            LocalTime time = heard.Time;
            int hour = time.Hour == 0 ? 12 : time.Hour;
            bool either = time.Hour is <= 12 && !(heard.Form == TimeForm.Spoken && heard.Asks is null);
            isSettled = either && (Has(SeenWords.Evening) || Has(SeenWords.LastNight) || Has(SeenWords.AtNight) || Has(SeenWords.Morning));
            if (either && (Has(SeenWords.Evening) || (Has(SeenWords.LastNight) | Has(SeenWords.AtNight) && hour is >= 5 and < 12)))
            {
                return heard with { Time = new LocalTime((hour % 12) + 12, time.Minute) };
            }

            if (either && (Has(SeenWords.Morning) || Has(SeenWords.LastNight) || Has(SeenWords.AtNight)))
            {
                return heard with { Time = new LocalTime(hour % 12, time.Minute) };
            }

            isOpen = open;
            return heard;
        }

        return null;
    }

    private ListOf<IsoDayOfWeek> Weekdays()
    {
        for (int at = 0; at < hear.Tokens.Count; at++)
        {
            if (hear.Weekday(at) is not null && hear.WeekdayList(at) is { } list && !(list.Days.Count == 1 && hear[at]!.Text.Length < 3))
            {
                return list.Days;
            }
        }

        return Has(SeenWords.Weekend) ? [IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday] : [];
    }

    private static string Shown(LocalTime time) => $"{time.Hour:00}:{time.Minute:00}";
}
