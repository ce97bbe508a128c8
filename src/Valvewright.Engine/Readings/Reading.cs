using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings;

/// <summary>
/// What somebody read off a controller's display, perhaps incomplete. Null means "not read"; an empty list means "read, and there is
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

    /// <summary>Days of rain hold still to go; 0 when none is set.</summary>
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

    /// <summary>Water days.</summary>
    public ReadDays? Days { get; init; }
}

/// <summary>Water days as a display shows them.</summary>
/// <param name="Kind">The kind of rule; null when "no day" was read.</param>
/// <param name="Weekdays">The days, Monday first, for <see cref="DayRuleKind.DaysOfWeek"/>.</param>
/// <param name="IntervalDays">n of "every n days".</param>
/// <param name="DaysLeft">Days to the next watering; 0 means it waters today.</param>
/// <param name="Next">The date of the next watering, where that is shown instead.</param>
public sealed record ReadDays(DayRuleKind? Kind, ListOf<IsoDayOfWeek> Weekdays, int? IntervalDays = null, int? DaysLeft = null, LocalDate? Next = null)
{
    /// <summary>No water day at all.</summary>
    public static ReadDays None { get; } = new(null, []);
}

/// <summary>Something in a reading that could mean more than one thing, or nothing; never settled silently.</summary>
/// <param name="Line">Line of the text, from 1.</param>
/// <param name="Column">Character in the line, from 1.</param>
/// <param name="Found">What was typed.</param>
/// <param name="Taken">What it was taken for; empty when it was left out of the reading.</param>
/// <param name="Otherwise">What else it could be, or the nearest word; empty where nothing is near.</param>
/// <param name="Why">One plain sentence.</param>
public sealed record Doubt(int Line, int Column, string Found, string Taken, string Otherwise, string Why)
{
    private (Phrase Taken, Phrase Otherwise, Phrase Why)? said;

    /// <summary>The same in Spanish.</summary>
    public Doubt InSpanish() => said is not { } phrases ? this : this with { Taken = phrases.Taken.In(spanish: true), Otherwise = phrases.Otherwise.In(spanish: true), Why = Stopped(phrases.Why.In(spanish: true)) };

    /// <summary>A doubt in words that both languages have.</summary>
    internal static Doubt Of(int line, int column, string found, Phrase taken, Phrase otherwise, Phrase why) =>
        new(line, column, found, taken.In(spanish: false), otherwise.In(spanish: false), Stopped(why.In(spanish: false))) { said = (taken, otherwise, why) };

    /// <summary>What of it has no Spanish.</summary>
    internal IEnumerable<string> Untranslated() => said is not { } phrases ? [Why] : new[] { phrases.Taken, phrases.Otherwise, phrases.Why }.SelectMany(p => p.Untranslated());

    private static string Stopped(string sentence) => sentence.EndsWith('.') ? sentence : sentence + ".";
}

/// <summary>A text read: what it says, and what is doubtful about it.</summary>
/// <param name="Reading">The settings as understood.</param>
/// <param name="Doubts">In the order of the text. An entry that was taken for nothing was left out.</param>
public sealed record ReadText(Reading Reading, ListOf<Doubt> Doubts)
{
    /// <summary>Whether every word was understood in one way only.</summary>
    public bool IsCertain => Doubts.Count == 0;
}
