using System.Text.Json.Serialization;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>What a kind of controller can hold and how it behaves, read off its manual.</summary>
/// <remarks>Named by what it holds ("6 stations, 2 programs"), never after who makes it.</remarks>
public sealed record Profile
{
    /// <summary>The profile's plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Outputs for valves, 1 to 48.</summary>
    public required int Stations { get; init; }

    /// <summary>Programs, 1 to 8; they carry the letters A, B, C, ...</summary>
    public required int Programs { get; init; }

    /// <summary>Start times that each program can hold.</summary>
    public required int StartTimesPerProgram { get; init; }

    /// <summary>Start times are multiples of this many minutes after midnight.</summary>
    public int StartStepMinutes { get; init; } = 1;

    /// <summary>Run times are multiples of this many seconds.</summary>
    public int RunTimeStepSeconds { get; init; } = 60;

    /// <summary>The longest run time that can be set.</summary>
    public int RunTimeLimitSeconds { get; init; } = 4 * 3600;

    /// <summary>The kinds of water-day rule that plans may use.</summary>
    public required ListOf<DayRuleKind> DayRules { get; init; }

    /// <summary>All kinds that it can hold, where the survey keeps plans to fewer; null: <see cref="DayRules"/>.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ListOf<DayRuleKind>? HeldDayRules { get; init; }

    /// <summary>The kinds of rule that may be found on its display.</summary>
    [JsonIgnore]
    public ListOf<DayRuleKind> KnownDayRules => HeldDayRules ?? DayRules;

    /// <summary>The largest n of "every n days"; 1 where intervals are not offered.</summary>
    public int LargestIntervalDays { get; init; } = 1;

    /// <summary>The range of percent adjust.</summary>
    public PercentRange Percent { get; init; } = new(10, 200, 10);

    /// <summary>Whether "every n days" is a counter of days left that follows midnights, instead of a date to count from.</summary>
    public bool IntervalCountsDaysLeft { get; init; }

    /// <summary>How a run time scaled by the percent is rounded; at 100 percent nothing is.</summary>
    public PercentRounding Rounding { get; init; } = PercentRounding.NearestSecond;

    /// <summary>What becomes of a start that falls due while a program is running.</summary>
    public OverlapBehaviour Overlap { get; init; } = OverlapBehaviour.WaitsItsTurn;

    /// <summary>Pause between one station's closing and the next one's opening.</summary>
    public int PauseBetweenStationsSeconds { get; init; }

    /// <summary>Whether an odd-day program skips the 31st.</summary>
    public bool OddSkips31 { get; init; }

    /// <summary>Whether an odd-day program skips 29 February.</summary>
    public bool OddSkips29February { get; init; }

    /// <summary>Whether its clock changes with daylight saving by itself.</summary>
    public bool ClockKnowsDaylightSaving { get; init; }

    /// <summary>The longest rain delay that can be set, in days; 0 where there is none.</summary>
    public int LargestRainHoldDays { get; init; }

    /// <summary>Whether a rain sensor can be wired to it.</summary>
    public bool HasSensorInput { get; init; }

    /// <summary>An output for a pump or master valve; null where there is none.</summary>
    public PumpOutput? Pump { get; init; }

    /// <summary>Whether settings outlive a flat battery.</summary>
    public bool KeepsSettingsWithoutPower { get; init; } = true;

    /// <summary>What it takes from its battery; null where not known.</summary>
    public PowerDemand? Power { get; init; }

    /// <summary>The letter of program 0, 1, 2, ...</summary>
    public static char LetterOf(int program) => (char)('A' + program);
}

/// <summary>The kinds of water-day rule.</summary>
public enum DayRuleKind
{
    /// <summary>Chosen days of the week.</summary>
    DaysOfWeek,

    /// <summary>Odd dates.</summary>
    Odd,

    /// <summary>Even dates.</summary>
    Even,

    /// <summary>Every n days, counted from a date.</summary>
    Interval,
}

/// <summary>Range and step of percent adjust.</summary>
/// <param name="Least">Smallest percent.</param>
/// <param name="Largest">Largest percent.</param>
/// <param name="Step">Step between settings; 100 is always reachable.</param>
public sealed record PercentRange(int Least, int Largest, int Step)
{
    /// <summary>No adjustment: 100 only.</summary>
    public static PercentRange None { get; } = new(100, 100, 1);

    /// <summary>Every percent that can be set, rising.</summary>
    public IEnumerable<int> Settings()
    {
        for (int percent = Least; percent <= Largest; percent += Step)
        {
            yield return percent;
        }
    }
}

/// <summary>How a scaled run time is rounded.</summary>
public enum PercentRounding
{
    /// <summary>To the nearest second; half a second up.</summary>
    NearestSecond,

    /// <summary>To the nearest minute; half a minute up.</summary>
    NearestMinute,

    /// <summary>Down to a whole minute; less than one becomes nothing.</summary>
    DownToMinute,

    /// <summary>Up to a whole minute.</summary>
    UpToMinute,
}

/// <summary>What becomes of a start that falls due while the controller is running.</summary>
public enum OverlapBehaviour
{
    /// <summary>It begins when what is running, and what waits before it, has ended.</summary>
    WaitsItsTurn,

    /// <summary>It never happens.</summary>
    Lost,

    /// <summary>Programs run beside each other; a program's own later start waits its turn.</summary>
    RunsBeside,
}

/// <summary>An output that is on while any station is open.</summary>
/// <param name="LeadSeconds">It comes on this long before the first station opens; the station waits for it.</param>
/// <param name="LagSeconds">It goes off this long after the last station has closed.</param>
public sealed record PumpOutput(int LeadSeconds, int LagSeconds);

/// <summary>What a controller takes from its battery.</summary>
/// <param name="CapacityMah">Rated capacity of a fresh battery set.</param>
/// <param name="StandbyMicroamps">Current with nothing to do.</param>
/// <param name="PulseMillicoulombs">Charge of one latching pulse; a watering takes two.</param>
/// <param name="SelfDischargePerYear">Share of capacity lost in a year at 20 degrees C.</param>
public sealed record PowerDemand(double CapacityMah, double StandbyMicroamps, double PulseMillicoulombs, double SelfDischargePerYear);
