using NodaTime;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>What is being spoken of, so that a bare number can be understood.</summary>
internal enum Topic
{
    /// <summary>Nothing in particular.</summary>
    None,

    /// <summary>Start times.</summary>
    Starts,

    /// <summary>Stations and run times.</summary>
    Runs,

    /// <summary>Watering days.</summary>
    Days,
}

/// <summary>Something a few words say.</summary>
internal abstract record Said
{
    /// <summary>Whether it is a setting, which belongs to a program or to the controller.</summary>
    public virtual ReadPart? Part => null;
}

/// <summary>A program, or several at once, is spoken of.</summary>
/// <param name="Letters">Their letters.</param>
/// <param name="Introduced">Whether a word such as "on" or "el" stands before, so that it may follow what it is about.</param>
internal sealed record OpensProgram(string Letters, bool Introduced) : Said;

/// <summary>A start time.</summary>
internal sealed record SaysStart(LocalTime Time) : Said
{
    public override ReadPart? Part => ReadPart.StartTimes;
}

/// <summary>A part of a program, or all of it, was looked at and there is nothing.</summary>
internal sealed record SaysNone(Topic Topic) : Said
{
    public override ReadPart? Part =>
        Topic switch { Topic.Runs => ReadPart.RunTimes, Topic.Days => ReadPart.WaterDays, _ => ReadPart.StartTimes };
}

/// <summary>Run time of stations; none named: of all.</summary>
internal sealed record SaysRun(ListOf<int> Stations, int Seconds) : Said
{
    public override ReadPart? Part => ReadPart.RunTimes;
}

/// <summary>Run times without station numbers.</summary>
internal sealed record SaysRunsInOrder(ListOf<int> Seconds) : Said
{
    public override ReadPart? Part => ReadPart.RunTimes;
}

/// <summary>Weekdays on which it waters; or does not.</summary>
internal sealed record SaysWeekdays(ListOf<IsoDayOfWeek> Days, bool Less = false) : Said
{
    public override ReadPart? Part => ReadPart.WaterDays;
}

/// <summary>A rule of watering days.</summary>
internal sealed record SaysDays(ReadDays Days) : Said
{
    public override ReadPart? Part => ReadPart.WaterDays;
}

/// <summary>Where an interval stands: days left, or the next date.</summary>
internal sealed record SaysCount(int? DaysLeft, LocalDate? Next) : Said
{
    public override ReadPart? Part => ReadPart.WaterDays;
}

/// <summary>Percent adjust.</summary>
internal sealed record SaysPercent(int Percent) : Said
{
    public override ReadPart? Part => ReadPart.Percent;
}

/// <summary>Off or on.</summary>
internal sealed record SaysOff(bool Off) : Said
{
    public override ReadPart? Part => ReadPart.OnOrOff;
}

/// <summary>Days of rain delay.</summary>
internal sealed record SaysHold(int Days) : Said
{
    public override ReadPart? Part => ReadPart.RainHold;
}

/// <summary>What the clock shows.</summary>
internal sealed record SaysClock(ClockShown Shown) : Said
{
    public override ReadPart? Part => ReadPart.Clock;
}

/// <summary>When it was read.</summary>
internal sealed record SaysNow(LocalDateTime At) : Said;

/// <summary>Which controller it is.</summary>
internal sealed record SaysController(string Name) : Said;

/// <summary>A word that makes what it stands next to uncertain.</summary>
internal sealed record Hedges : Said;

/// <summary>A word that takes back what went before.</summary>
internal sealed record TakesBack : Said;

/// <summary>A word that nothing was made of.</summary>
/// <param name="Why">Why; null where it is simply unknown.</param>
internal sealed record LeavesOut(Sentence? Why = null) : Said;

/// <summary>One way to understand a few words.</summary>
/// <param name="From">The first token.</param>
/// <param name="End">The token after the last one.</param>
/// <param name="Cost">How far-fetched it is; 0 for words as they should be.</param>
/// <param name="After">What is being spoken of afterwards.</param>
/// <param name="Says">What they say, in order.</param>
/// <param name="Asks">What must be asked.</param>
internal sealed record Step(int From, int End, double Cost, Topic After, IReadOnlyList<Said> Says, IReadOnlyList<Question> Asks);
