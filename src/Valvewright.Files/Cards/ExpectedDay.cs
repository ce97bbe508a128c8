using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Cards;

/// <summary>A date on which water is to be expected.</summary>
/// <param name="Date">By the controller's clock; a watering that waits or runs past midnight belongs to the date of its start time.</param>
/// <param name="Percent">The percent adjust then set.</param>
/// <param name="Programs">What each program does.</param>
public sealed record ExpectedDay(LocalDate Date, int Percent, ListOf<ExpectedProgram> Programs)
{
    /// <summary>Days of a spell at one percent that are looked at: enough for eight waterings of the longest interval.</summary>
    private const int LongestLook = 250;

    /// <summary>Most programs water often: so many days are looked at first, and more only where they do not hold enough.</summary>
    private const int FirstLook = 20;

    /// <summary>The next dates with water, from a date on, as the emulator sees them.</summary>
    /// <param name="profile">The controller.</param>
    /// <param name="plan">Its settings and visits.</param>
    /// <param name="from">The first date.</param>
    /// <param name="ahead">How many days to look ahead.</param>
    /// <param name="most">How many dates to give at most.</param>
    public static ListOf<ExpectedDay> Next(Profile profile, ControllerPlan plan, LocalDate from, int ahead, int most)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(plan);
        return Spell.Of(plan, from, from.PlusDays(ahead - 1))
            .Where(s => s.Percent > 0)
            .SelectMany(s => Between(profile, s.SettingsOf(plan), s.From, LocalDate.Min(s.To, s.From.PlusDays(LongestLook)), most))
            .Take(most)
            .ToListOf();
    }

    /// <summary>At least so many dates of a spell, or all that it has. What starts later does not change what went before.</summary>
    private static ExpectedDay[] Between(Profile profile, Settings settings, LocalDate first, LocalDate last, int most)
    {
        LocalDate soon = LocalDate.Min(last, first.PlusDays(FirstLook));
        ExpectedDay[] days = [.. Between(profile, settings, first, soon)];
        return days.Length >= most || soon == last ? days : [.. Between(profile, settings, first, last)];
    }

    private static IEnumerable<ExpectedDay> Between(Profile profile, Settings settings, LocalDate first, LocalDate last)
    {
        Dictionary<char, long[]> due = settings.Programs.ToDictionary(
            p => p.Letter,
            p => p.StartTimes.Distinct().Order().Select(t => t.NanosecondOfDay / NodaConstants.NanosecondsPerSecond).ToArray());
        return Emulator.Run(profile, settings, first, last).Runs
            .GroupBy(r => ClockSeconds.DateOf(r.Opens - due[r.Program][r.Start]))
            .OrderBy(g => g.Key)
            .Select(g => new ExpectedDay(
                g.Key, settings.PercentAdjust, g.GroupBy(r => r.Program).OrderBy(p => p.Key).Select(Program).ToListOf()));
    }

    private static ExpectedProgram Program(IGrouping<char, StationRun> runs) => new(
        runs.Key,
        ClockSeconds.ToDateTime(runs.Min(r => r.Opens)),
        ClockSeconds.ToDateTime(runs.Max(r => r.Closes)),
        runs.Select(r => r.Start).Distinct().Count());
}

/// <summary>What a program does on a date.</summary>
/// <param name="Letter">The program.</param>
/// <param name="Opens">When its first station opens.</param>
/// <param name="Closes">When its last station closes.</param>
/// <param name="Starts">How many of its start times are followed.</param>
public sealed record ExpectedProgram(char Letter, LocalDateTime Opens, LocalDateTime Closes, int Starts);
