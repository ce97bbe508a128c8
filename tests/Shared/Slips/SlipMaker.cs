using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Slips;

/// <summary>Makes slips in a sound reading, each on a part that no other has touched.</summary>
internal sealed partial class SlipMaker
{
    private readonly Random random;
    private readonly Site site;
    private readonly SiteController controller;
    private readonly ControllerPlan planned;
    private readonly LocalDateTime at;
    private readonly Walk walk;
    private readonly HashSet<string> touched = [];
    private readonly List<Label> labels = [];
    private Reading reading;

    public SlipMaker(Site site, SiteController controller, Plan plan, LocalDateTime at, Random random)
    {
        (this.site, this.controller, this.at, this.random) = (site, controller, at, random);
        planned = plan.For(controller.Name);
        walk = new Walk(site, controller, plan, at);
        reading = Display.Of(site, controller, planned, at);
        Plan = plan;
    }

    /// <summary>The kinds that it can make.</summary>
    public static IReadOnlyList<FindingKind> Kinds { get; } = [.. Enum.GetValues<FindingKind>()];

    public Plan Plan { get; }

    private Profile Profile => controller.Profile;

    private bool IsOn => Display.PercentOn(planned, at.Date) > 0;

    private Settings Settings => planned.Settings with { PercentAdjust = Math.Max(1, Display.PercentOn(planned, at.Date)) };

    public SlipCase Case(double shareLeftOut) => new(site, controller, Plan, at, WithHoles(shareLeftOut), labels.ToListOf());

    /// <summary>Makes a slip of a kind where the controller offers one; says whether it did.</summary>
    public bool Make(FindingKind kind) => kind switch
    {
        FindingKind.StartsUsedAsStations => IsOn && ProgramsWith(p => p.RunTimes.Count >= 2) is { } p && ClassicIn(p),
        FindingKind.EmptyPart => IsOn && ProgramsWith(_ => true) is { } p && Emptied(p),
        FindingKind.Overlap or FindingKind.OutsideHours or FindingKind.SharedPipe or FindingKind.StartDiffers =>
            IsOn && ProgramsWith(_ => true) is { } p && StartMoved(kind, p),
        FindingKind.HalfDaySlip => IsOn && ProgramsWith(_ => true) is { } p && HalfDay(p),
        FindingKind.OutsideDays => IsOn && ProgramsWith(p => p.Days is EvenDays or DaysOfWeek) is { } p && OutsideDays(p),
        FindingKind.OddOnThe31st => IsOn && ProgramsWith(p => p.Days is not OddDays) is { } p && Odd(p),
        FindingKind.IntervalWrongDay => IsOn && ProgramsWith(p => p.Days is EveryNDays { Days: > 1 }) is { } p && WrongDay(p),
        FindingKind.DaysDiffer => IsOn && ProgramsWith(p => p.Days is DaysOfWeek { Days.Count: > 1 }) is { } p && FewerDays(p),
        FindingKind.PercentOutOfSeason => Percent(),
        FindingKind.RunsOff => IsOn && ProgramsWith(_ => true) is { } p && TooLong(p),
        FindingKind.RunTimeDiffers => IsOn && ProgramsWith(_ => true) is { } p && Shorter(p),
        FindingKind.StationInNoProgram => IsOn && ProgramsWith(p => p.RunTimes.Count >= 2) is { } p && NoProgram(p),
        FindingKind.StationInTwoPrograms => IsOn && planned.Settings.Programs.Count >= 2 && ProgramsWith(_ => true) is { } p
            && Elsewhere(p, alsoAtHome: true),
        FindingKind.StationInWrongProgram => IsOn && planned.Settings.Programs.Count >= 2 && ProgramsWith(p => p.RunTimes.Count >= 2) is
            { } p && Elsewhere(p, alsoAtHome: false),
        FindingKind.ClockWrong => Clock(),
        FindingKind.OffLeftOn => IsOn && Touch("off") && Set(reading with { Off = true }, new Label(kind)),
        FindingKind.RainHoldLeft => IsOn && Profile.LargestRainHoldDays > 0 && Touch("hold")
            && Set(reading with { RainHoldDays = random.Next(1, Profile.LargestRainHoldDays + 1) }, new Label(kind)),
        _ => false,
    };

    private Program? ProgramsWith(Func<Program, bool> fits)
    {
        Program[] all = [.. planned.Settings.Programs.Where(fits)];
        return all.Length == 0 ? null : all[random.Next(all.Length)];
    }

    private bool Touch(params string[] parts)
    {
        if (parts.Any(touched.Contains))
        {
            return false;
        }

        touched.UnionWith(parts);

        // Whoever tells of a part of a program tells of the program.
        touched.UnionWith(parts.Where(p => p.Length > 1 && p[1] == ' ').Select(p => p[..1]));
        return true;
    }

    private bool Set(Reading changed, Label label)
    {
        reading = changed;
        labels.Add(label);
        return true;
    }

    private ReadProgram Read(char letter) => reading.Programs.First(p => p.Letter == letter);

    private Reading With(ReadProgram program) =>
        reading with { Programs = reading.Programs.Select(p => p.Letter == program.Letter ? program : p).ToListOf() };

    private static ListOf<RunTime> WithRun(ListOf<RunTime> runs, int station, int seconds) =>
        runs.Select(r => r.Station == station ? r with { Seconds = seconds } : r).ToListOf();

    /// <summary>Leaves out parts in which there is no slip, as a hurried caller does.</summary>
    private Reading WithHoles(double share)
    {
        bool Drop(string part) => !touched.Contains(part) && random.NextDouble() < share;
        return reading with
        {
            Clock = Drop("clock") ? null : reading.Clock,
            Percent = Drop("percent") ? null : reading.Percent,
            Off = Drop("off") ? null : reading.Off,
            RainHoldDays = Drop("hold") ? null : reading.RainHoldDays,
            Programs = reading.Programs.Where(p => !Drop($"{p.Letter}")).Select(p => p with
            {
                StartTimes = Drop($"{p.Letter} starts") ? null : p.StartTimes,
                RunTimes = Drop($"{p.Letter} runs") ? null : p.RunTimes,
                Days = Drop($"{p.Letter} days") ? null : p.Days,
            }).ToListOf(),
        };
    }
}
