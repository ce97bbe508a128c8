using NodaTime;
using NodaTime.TimeZones;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Controllers;

/// <summary>
/// What befalls a controller on a site, in site time: the local time that people there live by, daylight saving
/// included. A time that a clock change skips is taken an hour later, one that it doubles the first time it comes.
/// </summary>
public sealed record Circumstances
{
    /// <summary>When settings and clock were set; it is idle before.</summary>
    public required LocalDateTime KeyedIn { get; init; }

    /// <summary>
    /// What the clock was set to then. Null: right, which is site time for a clock that knows daylight saving, and the
    /// zone's standard time for one that does not.
    /// </summary>
    public LocalDateTime? ClockSetTo { get; init; }

    /// <summary>Thousandths of a second that the clock gains in a day; negative where it loses.</summary>
    public int DriftMillisecondsPerDay { get; init; }

    /// <summary>Later settings of the clock, by rising time.</summary>
    public ListOf<ClockSetting> ClockSettings { get; init; } = [];

    /// <summary>Later settings, by rising time; percent 0 is off.</summary>
    public ListOf<Rekeying> Rekeyings { get; init; } = [];

    /// <summary>Spells for which it is set to off.</summary>
    public ListOf<OffSpell> Off { get; init; } = [];

    /// <summary>Rain delays.</summary>
    public ListOf<RainHold> RainHolds { get; init; } = [];

    /// <summary>A rain sensor with the rain that falls on it; null where none is wired.</summary>
    public RainSensor? Sensor { get; init; }

    /// <summary>Runs started at the controller.</summary>
    public ListOf<RunByHand> RunsByHand { get; init; } = [];

    /// <summary>Spells without power.</summary>
    public ListOf<PowerLoss> PowerLosses { get; init; } = [];

    /// <summary>Where a profile counts days left: what the counters showed at <see cref="KeyedIn"/>; else by the anchor.</summary>
    public ListOf<DaysLeft> DaysLeft { get; init; } = [];

    /// <summary>What the clock shows once it is set.</summary>
    public LocalDateTime ShowsAtFirst(Profile profile, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(zone);
        if (ClockSetTo is LocalDateTime set)
        {
            return set;
        }

        Instant at = zone.AtLeniently(KeyedIn).ToInstant();
        return at.WithOffset(profile.ClockKnowsDaylightSaving ? zone.GetUtcOffset(at) : StandardTime.OffsetAt(zone, at)).LocalDateTime;
    }
}

/// <summary>A person sets the clock.</summary>
/// <param name="At">When.</param>
/// <param name="To">What it shows from then on.</param>
public readonly record struct ClockSetting(LocalDateTime At, LocalDateTime To)
{
    /// <summary>Right, but for morning and afternoon taken for each other.</summary>
    public static ClockSetting HalfADayOut(LocalDateTime at) => new(at, at.Hour < 12 ? at.PlusHours(12) : at.PlusHours(-12));

    /// <summary>Right, but for the date: so many days ahead, or behind where negative.</summary>
    public static ClockSetting DaysOut(LocalDateTime at, int days) => new(at, at.PlusDays(days));

    /// <summary>Right, but for the year; 29 February becomes the 28th where that year has none.</summary>
    public static ClockSetting YearsOut(LocalDateTime at, int years) => new(at, at.PlusYears(years));
}

/// <summary>Other settings are set.</summary>
/// <param name="At">When.</param>
/// <param name="Settings">What is in force from then on.</param>
public sealed record Rekeying(LocalDateTime At, Settings Settings);

/// <summary>A spell for which a controller is set to off.</summary>
/// <param name="From">From when.</param>
/// <param name="To">Until when; null: until further notice.</param>
public readonly record struct OffSpell(LocalDateTime From, LocalDateTime? To);

/// <summary>No program runs for so many times 24 hours.</summary>
/// <param name="Set">When it is set.</param>
/// <param name="Days">For how many days.</param>
public readonly record struct RainHold(LocalDateTime Set, int Days);

/// <summary>A rain sensor and the days of rain that fall on it.</summary>
/// <param name="ThresholdMm">The rain of one day that makes it wet.</param>
/// <param name="DryOutHours">How long after that rain it stays wet.</param>
/// <param name="FirstDay">Date of the first rain value.</param>
/// <param name="RainMm">Rain by day, mm.</param>
/// <param name="FallsAt">
/// A daily record does not say when in the day rain fell; all of a day's rain is taken to have fallen at this time.
/// </param>
public sealed record RainSensor(double ThresholdMm, int DryOutHours, LocalDate FirstDay, ListOf<double> RainMm, LocalTime FallsAt)
{
    /// <summary>A sensor on which the rain of a climate falls at midnight, at the beginning of each day.</summary>
    public static RainSensor Under(Climate climate, double thresholdMm, int dryOutHours)
    {
        ArgumentNullException.ThrowIfNull(climate);
        return new RainSensor(thresholdMm, dryOutHours, climate.First, [.. climate.RainMm], LocalTime.Midnight);
    }
}

/// <summary>A run started at the controller.</summary>
/// <param name="At">When.</param>
/// <param name="Station">The station; 0 for a whole program.</param>
/// <param name="Seconds">How long the station is to be open.</param>
/// <param name="Program">The program's letter; <see cref="StationRun.ByHand"/> for one station.</param>
public readonly record struct RunByHand(LocalDateTime At, int Station, int Seconds, char Program = StationRun.ByHand);

/// <summary>A spell without power.</summary>
/// <param name="From">From when.</param>
/// <param name="To">When power is back.</param>
/// <param name="ClockThen">What the clock shows when power is back; null: it kept time.</param>
/// <param name="SettingsThen">What it holds when power is back; null: it kept its settings.</param>
/// <param name="ValveStaysOpen">Whether a latching valve that is open as power fails stays open until power is back.</param>
public sealed record PowerLoss(LocalDateTime From, LocalDateTime To, LocalDateTime? ClockThen, Settings? SettingsThen, bool ValveStaysOpen);
