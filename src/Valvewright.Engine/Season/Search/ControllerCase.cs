using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season.Search;

/// <summary>One controller of a season: the percents it can be left at, and its zones.</summary>
internal sealed class ControllerCase
{
    private ControllerCase(SiteController controller, int[] percents, ZoneCase[] zones)
    {
        Controller = controller;
        Percents = percents;
        Zones = zones;
    }

    public SiteController Controller { get; }

    /// <summary>Rising; 0 stands for off and comes first. None above 100: a plan's run times are for the largest percent of the year.</summary>
    public int[] Percents { get; }

    public ZoneCase[] Zones { get; }

    /// <summary>Zones that a season is planned for: all but seedbeds, which pass within weeks and have their own waterings.</summary>
    public static bool Lasts(Zone zone) => zone.Planting.Stage != PlantStage.NewlySeeded;

    /// <exception cref="ArgumentException">A station is in more than one program.</exception>
    public static ControllerCase Of(SiteController controller, ControllerPlan plan, IReadOnlyList<Climate> years) => Of(controller, plan, years, []);

    /// <summary>The same with further percents, such as one that somebody has set by hand.</summary>
    public static ControllerCase Of(SiteController controller, ControllerPlan plan, IReadOnlyList<Climate> years, IEnumerable<int> more)
    {
        int[] percents = [0, .. controller.Profile.Percent.Settings().Append(100).Where(p => p is > 0 and <= 100).Concat(more.Where(p => p > 0)).Distinct().Order()];
        ZoneCase[] zones =
        [
            .. controller.Zones.Where(Lasts).Select(zone => new ZoneCase(
                zone,
                controller.Profile,
                ProgramOf(controller, plan.Settings, zone.Station),
                [.. years.Select(y => ZoneDays.Of(zone, y))],
                percents)),
        ];
        return new ControllerCase(controller, percents, zones);
    }

    private static Program? ProgramOf(SiteController controller, Settings settings, int station)
    {
        Program[] programs = [.. settings.Programs.Where(p => p.RunTimes.Any(r => r.Station == station && r.Seconds > 0))];
        return programs.Length switch
        {
            0 => null,
            1 => programs[0],
            _ => throw new ArgumentException(
                $"Station {station} of '{controller.Name}' is in programs {string.Join(" and ", programs.Select(p => p.Letter))}; a season is planned for stations in one program each."),
        };
    }
}
