using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Season.Search.Programs;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season.Search;

/// <summary>One controller of a season: the percents it can be left at, its programs, and its zones.</summary>
internal sealed class ControllerCase
{
    private const int Full = 100;

    private ControllerCase(SiteController controller, int[] percents, ProgramCase[] programs, ZoneCase[] zones)
    {
        Controller = controller;
        Percents = percents;
        Programs = programs;
        Zones = zones;
    }

    public SiteController Controller { get; }

    /// <summary>Rising; 0 stands for off and comes first.</summary>
    public int[] Percents { get; }

    /// <summary>Programs that water a zone that lasts, in the order of their letters.</summary>
    public ProgramCase[] Programs { get; }

    public ZoneCase[] Zones { get; }

    /// <summary>Whether a visit may change more than the percent.</summary>
    public bool HasVariants => Programs.Any(p => p.Variants.Length > 1);

    /// <summary>The same with programs that stay as they are.</summary>
    public ControllerCase OfPercentsAlone() => new(Controller, Percents, [.. Programs.Select(p => new ProgramCase([p.Variants[0]]))], Zones);

    /// <summary>Zones that a season is planned for: all but seedbeds, which pass within weeks and have their own waterings.</summary>
    public static bool Lasts(Zone zone) => zone.Planting.Stage != PlantStage.NewlySeeded;

    /// <summary>A controller whose visits set the percent, and may change programs.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="plan">Its programs.</param>
    /// <param name="years">Years of record.</param>
    /// <param name="largestPercent">The largest percent at which the plan keeps every rule.</param>
    /// <param name="changesPrograms">Whether visits may change programs. Never where a seedbed lives on them.</param>
    /// <exception cref="ArgumentException">A station is in more than one program.</exception>
    public static ControllerCase Of(SiteController controller, ControllerPlan plan, IReadOnlyList<Climate> years, int largestPercent = Full, bool changesPrograms = false)
    {
        int[] percents = PercentsOf(controller.Profile, largestPercent, []);
        Zone[] lasting = [.. controller.Zones.Where(Lasts)];
        Program?[] waters = [.. lasting.Select(z => ProgramOf(controller, plan.Settings.Programs, z.Station))];
        Program[] used = [.. waters.OfType<Program>().Distinct().OrderBy(p => p.Letter)];
        bool free = changesPrograms && lasting.Length == controller.Zones.Count;
        ProgramCase[] programs = [.. used.Select(p => new ProgramCase(free ? ProgramVariants.Of(p, controller.Profile) : [p]))];
        ZoneCase[] zones =
        [
            .. lasting.Select((zone, i) =>
            {
                int program = Array.IndexOf(used, waters[i]);
                return new ZoneCase(zone, controller.Profile, program, program < 0 ? new Program?[] { null } : programs[program].Variants, [.. years.Select(y => ZoneDays.Of(zone, y))], percents);
            }),
        ];
        return new ControllerCase(controller, percents, programs, zones);
    }

    /// <summary>A controller whose programs are known all year; variants of a zone are the plan's sets of programs.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="plan">Its programs and visits.</param>
    /// <param name="years">Years of record.</param>
    /// <param name="more">Further percents, such as one that somebody has set by hand.</param>
    /// <exception cref="ArgumentException">A station is in more than one program.</exception>
    public static ControllerCase AsPlanned(SiteController controller, ControllerPlan plan, IReadOnlyList<Climate> years, IEnumerable<int> more)
    {
        int[] percents = PercentsOf(controller.Profile, Full, more);
        ListOf<ListOf<Program>> sets = plan.ProgramSets;
        ZoneCase[] zones =
        [
            .. controller.Zones.Where(Lasts).Select(zone => new ZoneCase(
                zone, controller.Profile, -1, [.. sets.Select(s => ProgramOf(controller, s, zone.Station))], [.. years.Select(y => ZoneDays.Of(zone, y))], percents)),
        ];
        return new ControllerCase(controller, percents, [], zones);
    }

    private static int[] PercentsOf(Profile profile, int largest, IEnumerable<int> more) =>
        [0, .. profile.Percent.Settings().Append(Full).Where(p => p > 0 && p <= largest).Concat(more.Where(p => p > 0)).Distinct().Order()];

    private static Program? ProgramOf(SiteController controller, ListOf<Program> all, int station)
    {
        Program[] programs = [.. all.Where(p => p.RunTimes.Any(r => r.Station == station && r.Seconds > 0))];
        return programs.Length switch
        {
            0 => null,
            1 => programs[0],
            _ => throw new ArgumentException(
                $"Station {station} of '{controller.Name}' is in programs {string.Join(" and ", programs.Select(p => p.Letter))}; a season is planned for stations in one program each."),
        };
    }
}
