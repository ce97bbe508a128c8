using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning;

/// <summary>Changes that are made or not: a day, a controller that holds more, clocks, a station moved.</summary>
internal static class SingleChanges
{
    private const int MostMoves = 6;

    public static IEnumerable<SiteChange> Of(Site site, string supply, ControllerCase[] controllers) =>
        Days(site.SupplyNamed(supply)).Concat(Clocks(site, supply, controllers)).Concat(controllers.SelectMany(Larger))
            .Concat(Moves(site, supply, controllers).Take(MostMoves));

    private static IEnumerable<SiteChange> Days(WaterSupply own)
    {
        foreach (IsoDayOfWeek day in PermittedTimes.EveryWeekday.Where(d => !own.Permitted.Weekdays.Contains(d)))
        {
            yield return new AnotherDay(own.Name, day, $"{(Sentence)day.ToString()} also permitted on {own.Name}", 4);
        }

        if (own.Permitted.Parity != DateParity.Any)
        {
            yield return new AnotherDay(own.Name, IsoDayOfWeek.None, $"both odd and even dates permitted on {own.Name}", 6);
        }
    }

    /// <summary>A clock kept in standard time loses an hour of every window that is permitted by local time.</summary>
    private static IEnumerable<SiteChange> Clocks(Site site, string supply, ControllerCase[] controllers)
    {
        string[] behind = [.. controllers.Where(c => new SiteClock(site.Zone(), c.Profile).SecondsBehind(
            c.FirstDate, c.FirstDate.PlusYears(1)).Count > 1).Select(c => c.Controller.Name)];
        if (behind.Length > 0 && site.SupplyNamed(supply).Permitted.Hours.Count > 0)
        {
            yield return new ClocksFollow(
                [.. behind], $"clocks with daylight saving on {InWords.List(behind)}, so that the change costs no permitted hours",
                    5 * behind.Length);
        }
    }

    private static IEnumerable<SiteChange> Larger(ControllerCase controller)
    {
        string name = controller.Controller.Name;
        Profile profile = controller.Profile;
        if (profile.Programs < controller.Zones.Count)
        {
            yield return new LargerController(name, 1, 0, 0, false, $"one more program on {name}: {profile.Programs + 1} in all", 8);
        }

        yield return new LargerController(
            name, 0, 1, 0, false, $"one more start time on {name}: {profile.StartTimesPerProgram + 1} per program", 8);
        yield return new LargerController(name, 0, 0, profile.RunTimeLimitSeconds, false,
            $"run times up to {InWords.Minutes(2 * profile.RunTimeLimitSeconds / 60)} on {name}", 8);
        if (profile.DayRules.Count < Enum.GetValues<DayRuleKind>().Length)
        {
            yield return new LargerController(name, 0, 0, 0, true, $"a controller with every kind of watering days instead of {name}", 10);
        }
    }

    /// <summary>The thirstiest stations first, to any controller with a station free, of another supply before the same.</summary>
    private static IEnumerable<MovedStation> Moves(Site site, string supply, ControllerCase[] controllers) =>
        from controller in controllers
        from zone in controller.Zones
        from to in site.Controllers
        where to.Name != controller.Controller.Name && to.Zones.Count < to.Profile.Stations
        orderby to.Supply == supply, -(zone.Choices.Count == 0 ? 0 : zone.Choices.Min(c => c.CostLitres)), to.Name
        let free = Enumerable.Range(1, to.Profile.Stations).First(s => to.Zones.All(z => z.Station != s))
        select new MovedStation(
            controller.Controller.Name, zone.Zone.Station, to.Name, free,
            $"station {zone.Zone.Station} of {controller.Controller.Name} ({zone.Zone.Name}) moved to station {free} of {to.Name}", 12);
}
