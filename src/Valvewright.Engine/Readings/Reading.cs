using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings;

/// <summary>
/// What a person read off a controller's display, perhaps incomplete. Null means "not read"; an empty list means "read, and there is
/// nothing there". The difference decides what a check may blame.
/// </summary>
public sealed record Reading
{
    /// <summary>Which controller it is, if said.</summary>
    public string? Controller { get; init; }

    /// <summary>When it was read, in site time, if said.</summary>
    public LocalDateTime? ReadAt { get; init; }

    /// <summary>What the controller's own clock showed.</summary>
    public ClockShown? Clock { get; init; }

    /// <summary>Percent adjust.</summary>
    public int? Percent { get; init; }

    /// <summary>Whether it is switched off.</summary>
    public bool? Off { get; init; }

    /// <summary>Days of rain delay still to go; 0 when none is set.</summary>
    public int? RainHoldDays { get; init; }

    /// <summary>The programs that were read, by letter; a letter that is absent was not read.</summary>
    public ListOf<ReadProgram> Programs { get; init; } = [];
}

/// <summary>The clock as shown; displays often show a weekday and no date.</summary>
/// <param name="Time">Time of day.</param>
/// <param name="Weekday">Day of the week.</param>
/// <param name="Date">Date.</param>
public sealed record ClockShown(LocalTime? Time, IsoDayOfWeek? Weekday, LocalDate? Date);

/// <summary>What was read of one program.</summary>
/// <param name="Letter">A, B, C, ...</param>
public sealed record ReadProgram(char Letter)
{
    /// <summary>Start times, rising.</summary>
    public ListOf<LocalTime>? StartTimes { get; init; }

    /// <summary>Run times by station; a station that was read as having none is there with 0 seconds.</summary>
    public ListOf<RunTime>? RunTimes { get; init; }

    /// <summary>Watering days.</summary>
    public ReadDays? Days { get; init; }
}

/// <summary>Watering days as a display shows them.</summary>
/// <param name="Kind">The kind of rule; null when "no day" was read.</param>
/// <param name="Weekdays">The days, Monday first, for <see cref="DayRuleKind.DaysOfWeek"/>.</param>
/// <param name="IntervalDays">n of "every n days".</param>
/// <param name="DaysLeft">Days to the next watering; 0 means it waters today.</param>
/// <param name="Next">The date of the next watering, where that is shown instead.</param>
public sealed record ReadDays(
    DayRuleKind? Kind, ListOf<IsoDayOfWeek> Weekdays, int? IntervalDays = null, int? DaysLeft = null, LocalDate? Next = null)
{
    /// <summary>No watering day at all.</summary>
    public static ReadDays None { get; } = new(null, []);
}

/// <summary>The parts of a reading that can be asked for one by one.</summary>
public enum ReadPart
{
    /// <summary>Whether it is on or off.</summary>
    OnOrOff,

    /// <summary>Start times of a program.</summary>
    StartTimes,

    /// <summary>Watering days of a program.</summary>
    WaterDays,

    /// <summary>What the clock shows.</summary>
    Clock,

    /// <summary>Run times of a program.</summary>
    RunTimes,

    /// <summary>Percent adjust.</summary>
    Percent,

    /// <summary>Rain delay.</summary>
    RainHold,
}

/// <summary>A part of a reading that rests on a doubtful word: it is to be asked about before it counts.</summary>
/// <param name="Part">The part.</param>
/// <param name="Program">The program's letter; null for the controller as a whole.</param>
public readonly record struct DoubtfulPart(ReadPart Part, char? Program);

/// <summary>Something in a reading that could mean more than one thing, or nothing; never settled silently.</summary>
/// <param name="Line">Line of the text, from 1.</param>
/// <param name="Column">Character in the line, from 1.</param>
/// <param name="Found">What was typed.</param>
/// <param name="Taken">What it was taken for; empty when it was left out of the reading.</param>
/// <param name="Otherwise">What else it could be, or the nearest word; empty where nothing is near.</param>
/// <param name="Why">One plain sentence.</param>
/// <param name="Parts">The parts of the reading that rest on it.</param>
public sealed record Doubt(int Line, int Column, string Found, Sentence Taken, Sentence Otherwise, Sentence Why, ListOf<DoubtfulPart> Parts)
{
    /// <summary>Whether the words were left out; else something was made of them, which may be wrong.</summary>
    public bool IsLeftOut { get; init; }
}

/// <summary>A text read: what it says, and what is doubtful about it.</summary>
/// <param name="Reading">The settings as understood.</param>
/// <param name="Doubts">In the order of the text. An entry that was taken for nothing was left out.</param>
public sealed record ReadText(Reading Reading, ListOf<Doubt> Doubts)
{
    /// <summary>Whether every word was understood in one way only.</summary>
    public bool IsCertain => Doubts.Count == 0;

    /// <summary>The parts that rest on a doubtful word, each once.</summary>
    public ListOf<DoubtfulPart> DoubtfulParts => Doubts.SelectMany(d => d.Parts).Distinct().ToListOf();

    /// <summary>The reading without what rests on a doubtful word, which is as if it had not been read.</summary>
    public Reading Certain()
    {
        HashSet<DoubtfulPart> doubtful = [.. DoubtfulParts];
        bool Is(ReadPart part, char? program = null) => doubtful.Contains(new DoubtfulPart(part, program));
        return Reading with
        {
            Clock = Is(ReadPart.Clock) ? null : Reading.Clock,
            Percent = Is(ReadPart.Percent) ? null : Reading.Percent,
            Off = Is(ReadPart.OnOrOff) ? null : Reading.Off,
            RainHoldDays = Is(ReadPart.RainHold) ? null : Reading.RainHoldDays,
            Programs = Reading.Programs.Select(p => p with
            {
                StartTimes = Is(ReadPart.StartTimes, p.Letter) ? null : p.StartTimes,
                RunTimes = Is(ReadPart.RunTimes, p.Letter) ? null : p.RunTimes,
                Days = Is(ReadPart.WaterDays, p.Letter) ? null : p.Days,
            }).Where(p => p is not { StartTimes: null, RunTimes: null, Days: null }).ToListOf(),
        };
    }
}
