using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>
/// What befalls a controller, in the steady seconds of its own clock: the seconds it counts, which no setting of the
/// clock makes jump. Until the first <see cref="ClockChange"/> they are what its display shows.
/// </summary>
/// <remarks><see cref="Circumstances"/> says the same in site time, as a person knows it.</remarks>
public sealed record ControllerState
{
    /// <summary>Nothing unusual.</summary>
    public static ControllerState Undisturbed { get; } = new();

    /// <summary>When the settings were set; it is idle before. Null: a week before the first date asked for.</summary>
    public long? KeyedIn { get; init; }

    /// <summary>Spells in which programs do not run.</summary>
    public ListOf<Standstill> Standstills { get; init; } = [];

    /// <summary>Runs that a person starts at the controller.</summary>
    public ListOf<HandRun> HandRuns { get; init; } = [];

    /// <summary>Jumps of the display, by rising time.</summary>
    public ListOf<ClockChange> ClockChanges { get; init; } = [];

    /// <summary>Later settings, by rising time.</summary>
    public ListOf<SettingsChange> SettingsChanges { get; init; } = [];

    /// <summary>Where a profile counts days left: what the counters showed when the settings were set; else by the anchor.</summary>
    public ListOf<DaysLeft> DaysLeft { get; init; } = [];
}

/// <summary>A spell in which programs do not run.</summary>
/// <param name="Cause">Off, rain delay, wet sensor or no power; the other reasons are no standstill.</param>
/// <param name="From">First second of it.</param>
/// <param name="To">First second after it; <see cref="long.MaxValue"/> for "until further notice".</param>
/// <param name="ValveStaysOpen">No power only: the latching solenoid keeps an open valve open until power is back.</param>
public readonly record struct Standstill(LostReason Cause, long From, long To, bool ValveStaysOpen = false)
{
    /// <summary>Whether it also ends or refuses a run by hand.</summary>
    public bool StopsRunsByHand => Cause is LostReason.Off or LostReason.NoPower;
}

/// <summary>A run started at the controller: one station for a while, or a whole program.</summary>
/// <param name="At">When.</param>
/// <param name="Station">The station; 0 for a whole program.</param>
/// <param name="Seconds">How long the station is to be open; percent adjust does not touch it.</param>
/// <param name="Program">The program's letter; <see cref="StationRun.ByHand"/> for one station.</param>
public readonly record struct HandRun(long At, int Station, int Seconds, char Program = StationRun.ByHand);

/// <summary>The display jumps.</summary>
/// <param name="At">When, in steady seconds.</param>
/// <param name="Shows">What it shows from then on, seconds since <see cref="ClockSeconds.Epoch"/>.</param>
/// <param name="Cause">Who or what made it jump.</param>
public readonly record struct ClockChange(long At, long Shows, ClockChangeCause Cause);

/// <summary>What makes a display jump.</summary>
public enum ClockChangeCause
{
    /// <summary>A person sets it.</summary>
    ByHand,

    /// <summary>It changes to or from daylight saving time by itself.</summary>
    ByItself,

    /// <summary>It begins again after it lost power.</summary>
    PowerBack,
}

/// <summary>Other settings from a moment on. Programs that run or wait then go on as they began.</summary>
/// <param name="At">When.</param>
/// <param name="Settings">What is set from then on.</param>
public sealed record SettingsChange(long At, Settings Settings);

/// <summary>What a days-left counter shows.</summary>
/// <param name="Program">The program's letter.</param>
/// <param name="Days">0: it waters on this day.</param>
public readonly record struct DaysLeft(char Program, int Days);
