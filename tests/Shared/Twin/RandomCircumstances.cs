using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Twin;

/// <summary>Circumstances on sites, drawn at random, often around the days on which clocks change.</summary>
public sealed class RandomCircumstances(RandomControllers draw)
{
    /// <summary>Zones that change at 2, at 3, at midnight, by half an hour, south and north, or never.</summary>
    public static readonly string[] Zones =
    [
        "America/Los_Angeles", "Europe/Madrid", "Australia/Adelaide", "America/St_Johns", "Australia/Lord_Howe",
        "America/Santiago", "America/Havana", "Asia/Kolkata", "America/Phoenix", "Asia/Beirut",
    ];

    public DateTimeZone Zone { get; } = DateTimeZoneProviders.Tzdb[draw.Pick(Zones)];

    /// <summary>A date within a few days of a clock change of the zone, or any other.</summary>
    public LocalDate Date()
    {
        LocalDate any = draw.Date();
        if (draw.Chance(3))
        {
            return any;
        }

        Interval year = new(Instant.FromUtc(any.Year, 1, 1, 0, 0), Instant.FromUtc(any.Year, 12, 31, 0, 0));
        Instant[] changes = [.. Zone.GetZoneIntervals(year).Where(i => i.HasEnd).Select(i => i.End)];
        return changes.Length == 0 ? any : draw.Pick(changes).InZone(Zone).Date.PlusDays(draw.Next(-2, 1));
    }

    /// <summary>Everything that may befall a controller in so many hours after it was keyed in.</summary>
    public Circumstances Draw(Profile profile, Settings settings, LocalDateTime keyedIn, int hours)
    {
        LocalDateTime Moment() => keyedIn.PlusSeconds(draw.Within(1, hours * 3600L));
        List<Rekeying> later = [.. Several(1, () => new Rekeying(Moment(), draw.Settings(profile, keyedIn.Date)))];
        later.AddRange(Several(1, () => new Rekeying(Moment(), settings with { PercentAdjust = draw.Pick(0, 50) })));
        return new Circumstances
        {
            KeyedIn = keyedIn,
            ClockSetTo = draw.Chance(2) ? null : WrongTime(keyedIn),
            DriftMillisecondsPerDay = draw.Pick(0, 0, 500, -3000, 120_000, draw.Next(-400_000, 400_000)),
            ClockSettings = Several(1, () => WrongSetting(Moment())).ToListOf(),
            Rekeyings = later.DistinctBy(r => r.At).OrderBy(r => r.At).ToListOf(),
            Off = Several(1, () => Off(Moment())).ToListOf(),
            RainHolds = Several(1, () => new RainHold(Moment(), draw.Next(1, profile.LargestRainHoldDays + 1))).ToListOf(),
            Sensor = draw.Chance(3) ? Sensor(keyedIn.Date) : null,
            RunsByHand = Several(2, () => ByHand(profile, settings, Moment())).OrderBy(r => r.At).ToListOf(),
            PowerLosses = Several(1, () => Loss(profile, Moment())).ToListOf(),
            DaysLeft = Several(1, () => new DaysLeft('A', draw.Next(0, 4))).ToListOf(),
        };
    }

    private LocalDateTime WrongTime(LocalDateTime right) => draw.Next(0, 5) switch
    {
        0 => ClockSetting.HalfADayOut(right).To,
        1 => ClockSetting.DaysOut(right, draw.Next(-8, 9)).To,
        2 => ClockSetting.YearsOut(right, draw.Next(-3, 4)).To,
        3 => right.PlusMinutes(draw.Next(-120, 120)),
        _ => right,
    };

    private ClockSetting WrongSetting(LocalDateTime at) => new(at, WrongTime(at));

    private OffSpell Off(LocalDateTime from) => new(from, draw.Chance(3) ? null : from.PlusMinutes(draw.Next(1, 3000)));

    private RainSensor Sensor(LocalDate date) => new(
        5, draw.Pick(1, 6, 24, 48), date.PlusDays(-1), [.. Enumerable.Range(0, 5).Select(_ => draw.Pick(0.0, 4.9, 5, 20))],
        draw.Pick(LocalTime.Midnight, LocalTime.Noon, new LocalTime(2, 30)));

    private RunByHand ByHand(Profile profile, Settings settings, LocalDateTime at) => draw.Chance(2)
        ? new RunByHand(at, draw.Next(1, profile.Stations + 1), draw.Next(1, 4000))
        : new RunByHand(at, 0, 0, draw.Pick([.. settings.Programs]).Letter);

    private PowerLoss Loss(Profile profile, LocalDateTime from) => new(
        from,
        from.PlusSeconds(draw.Pick(draw.Next(60, 600), draw.Next(7200, 90_000))),
        draw.Chance(2) ? null : draw.Pick(new LocalDateTime(2000, 1, 1, 0, 0), new LocalDateTime(2024, 2, 28, 12, 0), from.PlusHours(1)),
        draw.Chance(3) ? draw.Settings(profile, from.Date) : null,
        draw.Chance(2));

    private List<T> Several<T>(int most, Func<T> one) => [.. Enumerable.Range(0, draw.Next(0, most + 1)).Select(_ => one())];
}
