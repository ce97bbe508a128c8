using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>Whether a controller was left as its card says.</summary>
/// <param name="Check">Check text of the programs that were read, where all of the plan's were; else null.</param>
/// <param name="CardCheck">Check text of the card.</param>
/// <param name="Unread">What of the programs was not read, and so is not known.</param>
/// <param name="Percent">Percent that the plan leaves on that date; 0: off.</param>
/// <param name="PercentFits">Whether percent, or off, is as the plan leaves it; null where it was not read.</param>
public sealed record LeftAsPlanned(
    string? Check, string CardCheck, ListOf<(ReadPart About, char? Program)> Unread, int Percent, bool? PercentFits)
{
    /// <summary>Whether all was read and all is as on the card.</summary>
    public bool Matches => Check == CardCheck && PercentFits != false;

    /// <summary>Compares what was left with the plan.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="plan">The plan for it.</param>
    /// <param name="reading">What was left.</param>
    /// <param name="at">Site time.</param>
    public static LeftAsPlanned Of(SiteController controller, ControllerPlan plan, Reading reading, LocalDateTime at)
    {
        ArgumentNullException.ThrowIfNull(controller);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(reading);
        AsFound expected = Expectation.Of(plan, at.Date);
        LocalDate shown = reading.Clock?.Date ?? at.Date;
        Settings found = Expectation.Found(reading, expected, shown, shown, null).Settings;
        char[] letters = [.. expected.Settings.Programs.Where(Expectation.IsActive).Select(p => p.Letter)];
        var unread = Questions.Unread(reading, controller.Profile, letters).Where(q => q.Program is not null)
            .Concat(letters.Where(l => IsPartly(reading, expected.ProgramOf(l))).Select(l => (ReadPart.RunTimes, (char?)l))).ToListOf();
        bool? off = reading.Off ?? (reading.Percent is null ? null : false);
        bool? percentFits = off is null ? null : expected.Off ? off : off.Value ? false : reading.Percent is { } read
            ? read == expected.Settings.PercentAdjust : null;
        return new LeftAsPlanned(unread.Count == 0 ? CheckText.Of(found) : null, CheckText.Of(expected.Settings), unread,
            expected.Off ? 0 : expected.Settings.PercentAdjust, percentFits);
    }

    /// <summary>What a display shows once the card has been set.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="plan">The plan for it.</param>
    /// <param name="at">Site time.</param>
    public static Reading Expected(SiteController controller, ControllerPlan plan, LocalDateTime at)
    {
        ArgumentNullException.ThrowIfNull(controller);
        AsFound expected = Expectation.Of(plan, at.Date);
        return new Reading
        {
            Percent = expected.Settings.PercentAdjust,
            Off = expected.Off,
            Programs = Enumerable.Range(0, controller.Profile.Programs).Select(Profile.LetterOf).Select(l => expected.ProgramOf(l))
                .Select(p => Expectation.IsActive(p)
                    ? new ReadProgram(p.Letter)
                        { StartTimes = p.StartTimes, RunTimes = p.RunTimes, Days = Shown(controller.Profile, p.Days, at.Date) }
                    : new ReadProgram(p.Letter) { StartTimes = [], RunTimes = [], Days = ReadDays.None }).ToListOf(),
        };
    }

    /// <summary>Whether some run times of a program were read, but not those of all its stations.</summary>
    private static bool IsPartly(Reading reading, Program planned) =>
        reading.Programs.FirstOrDefault(p => p.Letter == planned.Letter)?.RunTimes is { Count: > 0 } runs
            && planned.RunTimes.Any(r => runs.All(x => x.Station != r.Station));

    private static ReadDays Shown(Profile profile, DayRule? rule, LocalDate date) => rule switch
    {
        DaysOfWeek week => new ReadDays(DayRuleKind.DaysOfWeek, week.Days.Order().ToListOf()),
        OddDays => new ReadDays(DayRuleKind.Odd, []),
        EvenDays => new ReadDays(DayRuleKind.Even, []),
        EveryNDays every when profile.IntervalCountsDaysLeft =>
            new ReadDays(DayRuleKind.Interval, [], every.Days, Expectation.DaysLeft(every, date)),
        EveryNDays every => new ReadDays(DayRuleKind.Interval, [], every.Days, null, date.PlusDays(Expectation.DaysLeft(every, date))),
        _ => ReadDays.None,
    };
}
