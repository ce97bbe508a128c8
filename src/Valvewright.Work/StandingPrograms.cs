using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Files.Problems;

namespace Valvewright.Work;

/// <summary>What was read off one controller, from which its programs are to be taken.</summary>
/// <param name="Source">The file, as problems name it.</param>
/// <param name="Controller">The controller.</param>
/// <param name="Read">What was understood.</param>
public sealed record ControllerRead(string Source, SiteController Controller, ReadText Read);

/// <summary>The programs that a site has, from readings.</summary>
/// <param name="Plan">The plan as it is set, without visits; controllers in the survey's order.</param>
/// <param name="NotRead">Controllers that no reading speaks of, whose programs come from the saved plan.</param>
/// <param name="Assumed">What was taken as so because the readings do not say.</param>
public sealed record StandingPrograms(Plan Plan, ListOf<string> NotRead, ListOf<Sentence> Assumed)
{
    /// <summary>Takes programs from readings. Everything that is set has to be read, and understood in one way only.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="reads">One reading for each controller that was read.</param>
    /// <param name="others">The plan that holds for controllers that were not read; null where there is none.</param>
    /// <param name="today">The date of a reading that does not say when it was made.</param>
    /// <exception cref="RefusalException">Something was not read, or is doubtful, or cannot be held.</exception>
    public static StandingPrograms Of(Site site, ListOf<ControllerRead> reads, Plan? others, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(site);
        List<Problem> problems = [.. reads.GroupBy(r => r.Controller.Name).Where(g => g.Count() > 1).Select(g => new Problem(
            g.Last().Source, 0, 0, g.Key, "one reading for each controller", null, "this controller was read twice"))];
        List<ControllerPlan> plans = [];
        List<string> notRead = [];
        List<Sentence> assumed = [];
        foreach (SiteController controller in site.Controllers)
        {
            if (reads.FirstOrDefault(r => r.Controller.Name == controller.Name) is { } read)
            {
                plans.Add(OneOf(read, today, problems, assumed));
            }
            else if (others?.Controllers.FirstOrDefault(c => c.Controller == controller.Name) is { } saved)
            {
                notRead.Add(controller.Name);
                plans.Add(saved);
            }
            else if (controller.Zones.Count == 0)
            {
                plans.Add(new ControllerPlan(controller.Name, new Settings([]), []));
            }
            else
            {
                problems.Add(new Problem(controller.Name, 0, 0, "no reading",
                    "a reading of each controller, or a saved plan for the others", null,
                    "the programs of this controller are not known"));
            }
        }

        return problems.Count > 0
            ? throw new RefusalException(new Refusal.WrongRequest(problems.ToListOf()))
            : new StandingPrograms(new Plan(site.Name, plans.ToListOf()), notRead.ToListOf(), assumed.ToListOf());
    }

    /// <summary>Whether a reading leaves no program open that could water: every program was read, or every zone has run times.</summary>
    internal static bool IsWhole(SiteController controller, Reading reading) => reading.Programs.Count == controller.Profile.Programs
        || controller.Zones.All(z => reading.Programs.Any(p => p.RunTimes?.Any(r => r.Station == z.Station) == true));

    private static ControllerPlan OneOf(ControllerRead read, LocalDate today, List<Problem> problems, List<Sentence> assumed)
    {
        Reading reading = read.Read.Reading;
        string name = read.Controller.Name;
        problems.AddRange(read.Read.Doubts.Select(d => new Problem(
            read.Source, d.Line, d.Column, d.Found, d.IsLeftOut ? "words that say one thing"
                : $"words that say one thing; taken as: {d.Taken.Text}", d.Otherwise.Text.Length > 0 ? d.Otherwise.Text : null,
                d.Why.Text)));
        LocalDate date = reading.ReadAt?.Date ?? today;
        if (reading.Programs.Count == 0)
        {
            problems.Add(new Problem(read.Source, 0, 0, "", "A: starts 5:00; days MWF; stations 1=10 2=12", null,
                $"no program of {name} was read"));
        }

        if (reading.Percent is null)
        {
            assumed.Add($"{name}: percent adjust was not read; taken as 100.");
        }

        if (reading.Off == true)
        {
            assumed.Add($"{name} was off when read; its programs are judged as if it were on all year.");
        }

        LocalDate shown = reading.Clock?.Date ?? date;
        return new ControllerPlan(name,
            new Settings([.. reading.Programs.OrderBy(p => p.Letter).Select(p => ProgramOf(read, p, shown, problems))], reading.Percent
            ?? 100), []);
    }

    private static Program ProgramOf(ControllerRead read, ReadProgram program, LocalDate date, List<Problem> problems)
    {
        bool isEmpty = program is { StartTimes.Count: 0 } or { RunTimes.Count: 0 } || program.Days is { Kind: null };
        void Lacks(bool lacks, string what, string example)
        {
            if (lacks && !isEmpty)
            {
                problems.Add(new Problem(read.Source, 0, 0, $"program {program.Letter}", example, null,
                    $"{what} of program {program.Letter} of {read.Controller.Name} were not read"));
            }
        }

        Lacks(program.StartTimes is null, "the start times", "starts 5:00, or: no starts");
        Lacks(program.RunTimes is null, "the run times", "stations 1=10 2=12, or: no run times");
        Lacks(program.Days is null, "the watering days", "days MWF, odd, every 3 days 2 left, or: no days");
        if (program.Days is { Kind: DayRuleKind.Interval, DaysLeft: null, Next: null, IntervalDays: not 1 } && !isEmpty)
        {
            problems.Add(new Problem(read.Source, 0, 0, $"program {program.Letter}: every {program.Days.IntervalDays} days",
                "days left, or the date of the next watering", null, "on which dates the interval falls was not read"));
        }

        return new Program(
            program.Letter,
            program.StartTimes ?? [],
            (program.RunTimes ?? []).Where(r => r.Seconds > 0).OrderBy(r => r.Station).ToListOf(),
            program.Days switch
            {
                null or { Kind: null } => null,
                { Kind: DayRuleKind.DaysOfWeek } days => new DaysOfWeek(days.Weekdays),
                { Kind: DayRuleKind.Odd } => new OddDays(),
                { Kind: DayRuleKind.Even } => new EvenDays(),
                var days => new EveryNDays(Math.Max(1, days.IntervalDays ?? 1), days.Next ?? date.PlusDays(days.DaysLeft ?? 0)),
            });
    }
}
