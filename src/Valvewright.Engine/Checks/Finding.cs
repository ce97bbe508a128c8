using NodaTime;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What can be wrong with what a controller holds.</summary>
public enum FindingKind
{
    /// <summary>Start times used as if each belonged to one station: the whole program runs at each.</summary>
    StartsUsedAsStations,

    /// <summary>A program without a start time, a run time or a watering day: it never runs.</summary>
    EmptyPart,

    /// <summary>A program overlaps itself or a neighbour.</summary>
    Overlap,

    /// <summary>Morning and afternoon taken for each other.</summary>
    HalfDaySlip,

    /// <summary>Water outside permitted hours.</summary>
    OutsideHours,

    /// <summary>Water on days on which it is not permitted.</summary>
    OutsideDays,

    /// <summary>Odd dates, where the 31st and the 1st follow each other.</summary>
    OddOnThe31st,

    /// <summary>An interval that counts from the wrong day.</summary>
    IntervalWrongDay,

    /// <summary>Percent adjust, or on and off, left as it belongs to another part of the year.</summary>
    PercentOutOfSeason,

    /// <summary>Run times longer than the ground takes in at once.</summary>
    RunsOff,

    /// <summary>A station that is wired and in no program that runs.</summary>
    StationInNoProgram,

    /// <summary>A station in two programs that run.</summary>
    StationInTwoPrograms,

    /// <summary>A station in another program than the planned one.</summary>
    StationInWrongProgram,

    /// <summary>The clock: hour, half of the day, day or year.</summary>
    ClockWrong,

    /// <summary>Switched off when it should be on.</summary>
    OffLeftOn,

    /// <summary>A rain delay is still in force.</summary>
    RainHoldLeft,

    /// <summary>Controllers on one supply want more at once than it gives.</summary>
    SharedPipe,

    /// <summary>A start time other than planned, with none of the consequences above.</summary>
    StartDiffers,

    /// <summary>Watering days other than planned.</summary>
    DaysDiffer,

    /// <summary>A run time other than planned, with none of the consequences above.</summary>
    RunTimeDiffers,
}

/// <summary>How sure a finding is; the surest first.</summary>
public enum Certainty
{
    /// <summary>It follows from what was read.</summary>
    Sure,

    /// <summary>Hardly anything else explains what was read.</summary>
    Likely,

    /// <summary>It may be meant.</summary>
    Possible,
}

/// <summary>One thing that is wrong, with what it does and what fixes it.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Certainty">How sure.</param>
/// <param name="Program">The program's letter; null where the whole controller is meant.</param>
/// <param name="Stations">The stations it is about; none where all of the program or controller are.</param>
/// <param name="Explanation">One or two plain sentences, with the times at which it will show.</param>
/// <param name="FromOutside">What a person sees who stands beside it.</param>
/// <param name="Mend">The fewest keyed changes that fix it.</param>
/// <param name="MendInWords">The same as sentences, one a change.</param>
/// <param name="Effect">What it costs; null where what was read does not suffice to say.</param>
/// <param name="Shows">The next times at which it shows, by site time; at most three.</param>
public sealed record Finding(
    FindingKind Kind, Certainty Certainty, char? Program, ListOf<int> Stations, string Explanation, string FromOutside,
    ListOf<KeyChange> Mend, ListOf<string> MendInWords, Effect? Effect, ListOf<Showing> Shows)
{
    /// <summary>Whether it rests on a word that was doubtful or left out: then it is only possible, and the word is asked about
    /// first.</summary>
    public bool RestsOnDoubt { get; init; }
}

/// <summary>A time at which a finding shows.</summary>
/// <param name="At">Site time.</param>
/// <param name="Station">The station that runs, or should.</param>
/// <param name="Runs">Whether it runs though it should not; else it does not run though it should.</param>
public readonly record struct Showing(LocalDateTime At, int Station, bool Runs);

/// <summary>A week with the matter unmended, beside a week with it fixed; all other findings fixed in both.</summary>
/// <param name="AsItIs">Unmended.</param>
/// <param name="Mended">Mended.</param>
public sealed record Effect(WeekOfWater AsItIs, WeekOfWater Mended);

/// <summary>The mean week over the four weeks after the reading, by emulation.</summary>
/// <param name="Minutes">Minutes that stations are open, summed.</param>
/// <param name="Litres">Water, by the surveyed flow of each zone.</param>
/// <param name="Waterings">Openings of stations.</param>
public readonly record struct WeekOfWater(double Minutes, double Litres, double Waterings);

/// <summary>What to ask the caller next.</summary>
/// <param name="About">The part that was not read.</param>
/// <param name="Program">The program's letter; null where the whole controller is meant.</param>
/// <param name="Words">The question.</param>
public sealed record NextQuestion(ReadPart About, char? Program, string Words);

/// <summary>The outcome of a check.</summary>
/// <param name="Findings">What is wrong, the surest and heaviest first. Nothing is blamed that was not read.</param>
/// <param name="Next">The one question that separates most; null when all was read.</param>
/// <param name="AgainstPlan">Whether there was a plan to compare with.</param>
public sealed record CheckResult(ListOf<Finding> Findings, NextQuestion? Next, bool AgainstPlan);

/// <summary>When and in which language a check is made.</summary>
/// <param name="At">Site time at which it was read.</param>
/// <param name="Language">Language of the texts.</param>
public sealed record CheckContext(LocalDateTime At, CheckLanguage Language = CheckLanguage.English)
{
    /// <summary>The parts of the reading that rest on a doubtful word (<see cref="ReadText.DoubtfulParts"/>).</summary>
    public ListOf<DoubtfulPart> Doubtful { get; init; } = [];
}

/// <summary>Languages of a check's texts.</summary>
public enum CheckLanguage
{
    /// <summary>English.</summary>
    English,

    /// <summary>Spanish.</summary>
    Spanish,
}
