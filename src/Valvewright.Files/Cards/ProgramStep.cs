using Valvewright.Engine.Controllers;

namespace Valvewright.Files.Cards;

/// <summary>One program to set, and what it comes to.</summary>
/// <param name="Program">Its settings.</param>
/// <param name="DaysUntilFirst">For an interval: days from the card's date to the first watering, 0 for the same day; null for other
/// rules.</param>
/// <param name="EmptyStarts">Start times that the program can hold and that must be cleared.</param>
/// <param name="Totals">What to check against, at 100 percent.</param>
public sealed record ProgramStep(Program Program, int? DaysUntilFirst, int EmptyStarts, ProgramTotals Totals)
{
    /// <summary>The step for a program.</summary>
    public static ProgramStep Of(SiteController device, Program program, LocalDate from)
    {
        ArgumentNullException.ThrowIfNull(device);
        ArgumentNullException.ThrowIfNull(program);
        return new ProgramStep(
            program with { StartTimes = program.StartTimes.Distinct().Order().ToListOf(),
                RunTimes = program.RunTimes.Where(r => r.Seconds > 0).OrderBy(r => r.Station).ToListOf() },
            program.Days is EveryNDays every ? UntilFirst(every, from) : null,
            Math.Max(0, device.Profile.StartTimesPerProgram - program.StartTimes.Distinct().Count()),
            ProgramTotals.Of(device, program, from));
    }

    /// <summary>Days from a date to an interval's next watering.</summary>
    internal static int UntilFirst(EveryNDays every, LocalDate from)
    {
        int since = Period.DaysBetween(every.Anchor, from) % every.Days;
        return since <= 0 ? -since : every.Days - since;
    }
}

/// <summary>Sums over a program, at 100 percent, taken by itself.</summary>
/// <param name="RunSeconds">All run times of one start, without pauses.</param>
/// <param name="Starts">Start times a watering day.</param>
/// <param name="DaySeconds">All run times of a watering day that the controller follows.</param>
/// <param name="LastCloses">When the last station closes, from midnight of the watering day; null where it never runs.</param>
/// <param name="RunLitres">Water of one start; NaN where a station's flow is not known.</param>
/// <param name="WeekLitres">Water of a mean week; for odd and even dates the mean of four years of dates.</param>
public sealed record ProgramTotals(int RunSeconds, int Starts, int DaySeconds, int? LastCloses, double RunLitres, double WeekLitres)
{
    /// <summary>A whole round of leap years, so that odd and even dates are weighed right.</summary>
    private const int DaysOfFourYears = 1461;

    /// <summary>The sums of a program.</summary>
    public static ProgramTotals Of(SiteController device, Program program, LocalDate from)
    {
        ArgumentNullException.ThrowIfNull(device);
        ArgumentNullException.ThrowIfNull(program);
        int run = program.RunTimes.Sum(r => r.Seconds);
        double litres = program.RunTimes.Where(r => r.Seconds > 0).Sum(r => r.Seconds / 60.0 * FlowOf(device, r.Station));
        IEnumerable<LocalDate> waterDays = program.Days is { } rule
            ? Enumerable.Range(0, DaysOfFourYears).Select(from.PlusDays).Where(d => rule.WatersOn(d, device.Profile))
            : [];
        LocalDate? first = waterDays.Select(d => (LocalDate?)d).FirstOrDefault();
        int starts = program.StartTimes.Distinct().Count();
        if (first is not { } waterDay || run == 0 || starts == 0)
        {
            return new ProgramTotals(run, starts, 0, null, litres, 0);
        }

        Timeline day = Emulator.Run(device.Profile, new Settings([program]), waterDay, waterDay);
        int followed = day.Runs.Select(r => r.Start).Distinct().Count();
        long last = day.Runs.Max(r => r.Closes) - ClockSeconds.AtMidnight(waterDay);
        double daysAWeek = program.Days switch
        {
            DaysOfWeek week => week.Days.Distinct().Count(),
            EveryNDays every => 7.0 / every.Days,
            _ => waterDays.Count() * 7.0 / DaysOfFourYears,
        };
        return new ProgramTotals(run, starts, run * followed, (int)last, litres, litres * followed * daysAWeek);
    }

    private static double FlowOf(SiteController device, int station) =>
        device.Zones.FirstOrDefault(z => z.Station == station)?.Emission.FlowLpm ?? double.NaN;
}
