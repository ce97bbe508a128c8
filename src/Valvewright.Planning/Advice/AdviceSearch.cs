using Google.OrTools.Sat;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning;

/// <summary>
/// What stands in the way of a supply's plan, and the smallest changes that free it. Relaxed limits say how much is missing at least;
/// from there each change is grown until planning with it succeeds, and kept only then.
/// </summary>
internal sealed class AdviceSearch(Site site, string supply, ControllerCase[] controllers, PlannerOptions options, Func<Site, string, SupplyOutcome> planWith, CancellationToken cancel)
{
    private const int MinutesStep = 15;
    private const int MostMoves = 6;

    public List<Obstacle> Find(Action<string> say)
    {
        say("What stands in the way");
        int? minutes = Missing(Limit.Hours, m => m.ExtraSeconds) is { } seconds ? (seconds + 59) / 60 : null;
        int? flowTenths = Missing(Limit.Flow, m => m.ExtraFlowTenths);
        List<SiteChange> freed = [];
        Engine.Supply.WaterSupply own = site.SupplyNamed(supply);
        if (own.Permitted.Hours.Count > 0)
        {
            say("More hours");
            Keep(freed, Smallest(Math.Max(1, ((minutes ?? 0) + MinutesStep - 1) / MinutesStep), 24 * 60 / MinutesStep, steps => Hours(steps * MinutesStep)));
        }

        say("More flow");
        double step = InWords.FlowStepLpm(site);
        Keep(freed, Smallest(Math.Max(1, (int)Math.Ceiling((flowTenths ?? 0) / 10.0 / step)), (int)Math.Ceiling(4 * own.FlowLpm / step), steps => Flow(own, steps * step)));
        say("Other days, a larger controller, a station moved");
        foreach (SiteChange change in SingleChanges(own))
        {
            cancel.ThrowIfCancellationRequested();
            Keep(freed, Frees(change) ? change : null);
        }

        return [new Obstacle(supply, Sentence(own, minutes, flowTenths, freed), [.. freed.OrderBy(f => f.Size).ThenBy(f => f.What, StringComparer.Ordinal)])];
    }

    /// <summary>Plans with the change: the supply itself, and the other supply that a station is moved to.</summary>
    private bool Frees(SiteChange change)
    {
        Site changed = change.ApplyTo(site);
        string[] touched = [supply, .. change is MovedStation move ? [site.ControllerNamed(move.To).Supply] : Array.Empty<string>()];
        return touched.Distinct().All(s => planWith(changed, s).Controllers is not null);
    }

    private static void Keep(List<SiteChange> freed, SiteChange? change)
    {
        if (change is not null)
        {
            freed.Add(change);
        }
    }

    /// <summary>The least by which a limit is missed when all the others hold; null where it alone would not help.</summary>
    private int? Missing(Limit limit, Func<ProgramModel, IntVar> extra)
    {
        ProgramModel model = new(controllers, copies: 1, withLesser: true, limit);
        if (controllers.Sum(c => c.Zones.Count) > model.Takings.Select(t => (t.Facility.Controller, t.Zone)).Distinct().Count())
        {
            return null;
        }

        model.Model.Minimize(extra(model));
        CpSolver solver = Solving.Solver(options.EffortSeconds / 4);
        return solver.Run(model.Model, cancel).IsFeasible() ? (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6) : null;
    }

    /// <summary>Grows a change from the least that could do until it frees the plan, then shrinks it to the smallest that still does.</summary>
    private SiteChange? Smallest(int from, int most, Func<int, SiteChange> change)
    {
        int low = from - 1, high = from;
        while (!Frees(change(high)))
        {
            if (high >= most)
            {
                return null;
            }

            low = high;
            high = Math.Min(most, Math.Max(high + 1, high * 2));
        }

        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            (low, high) = Frees(change(middle)) ? (low, middle) : (middle, high);
        }

        return change(high);
    }

    private MoreHours Hours(int minutes)
    {
        Engine.Supply.TimeWindow longest = site.SupplyNamed(supply).Permitted.Hours.MaxBy(h => h.Seconds)!;
        int from = (int)(longest.From.NanosecondOfDay / NodaConstants.NanosecondsPerSecond) - minutes * 60;
        string when = longest.Seconds / 60 + minutes >= 24 * 60 ? "at any hour" : $"from {InWords.Time(site, from)}";
        return new MoreHours(supply, minutes, $"{InWords.Minutes(minutes)} more of permitted hours on {supply}: {when} instead of {InWords.Time(site, from + minutes * 60)}", minutes / 15.0);
    }

    private MoreFlow Flow(Engine.Supply.WaterSupply own, double lpm)
    {
        double size = lpm / own.FlowLpm * 10;
        return new MoreFlow(supply, lpm, $"{InWords.Flow(site, lpm)} more from {supply}: {InWords.Flow(site, own.FlowLpm + lpm)} in all", size);
    }

    private IEnumerable<SiteChange> SingleChanges(Engine.Supply.WaterSupply own)
    {
        foreach (IsoDayOfWeek day in Engine.Supply.PermittedTimes.EveryWeekday.Where(d => !own.Permitted.Weekdays.Contains(d)))
        {
            yield return new AnotherDay(supply, day, $"{day} permitted on {supply} as well", 4);
        }

        if (own.Permitted.Parity != Engine.Supply.DateParity.Any)
        {
            yield return new AnotherDay(supply, IsoDayOfWeek.None, $"odd and even dates permitted on {supply}", 6);
        }

        foreach (ControllerCase controller in controllers)
        {
            string name = controller.Controller.Name;
            Profile profile = controller.Profile;
            if (profile.Programs < controller.Zones.Count)
            {
                yield return new LargerController(name, 1, 0, 0, false, $"one more program on {name}: {profile.Programs + 1} in all", 8);
            }

            yield return new LargerController(name, 0, 1, 0, false, $"one more start time on {name}: {profile.StartTimesPerProgram + 1} a program", 8);
            yield return new LargerController(name, 0, 0, profile.RunTimeLimitSeconds, false, $"run times up to {InWords.Minutes(2 * profile.RunTimeLimitSeconds / 60)} on {name}", 8);
            if (profile.DayRules.Count < Enum.GetValues<DayRuleKind>().Length)
            {
                yield return new LargerController(name, 0, 0, 0, true, $"a controller in place of {name} that offers every kind of water days", 10);
            }
        }

        foreach (MovedStation move in Moves().Take(MostMoves))
        {
            yield return move;
        }
    }

    /// <summary>The thirstiest stations first, to any controller with a station free, of another supply before the same.</summary>
    private IEnumerable<MovedStation> Moves() =>
        from controller in controllers
        from zone in controller.Zones
        from to in site.Controllers
        where to.Name != controller.Controller.Name && to.Zones.Count < to.Profile.Stations
        orderby to.Supply == supply, -(zone.Choices.Count == 0 ? 0 : zone.Choices.Min(c => c.LitresPerYear)), to.Name
        let free = Enumerable.Range(1, to.Profile.Stations).First(s => to.Zones.All(z => z.Station != s))
        select new MovedStation(
            controller.Controller.Name, zone.Zone.Station, to.Name, free,
            $"station {zone.Zone.Station} of {controller.Controller.Name} ({zone.Zone.Name}) moved to station {free} of {to.Name}", 12);

    private string Sentence(Engine.Supply.WaterSupply own, int? minutes, int? flowTenths, List<SiteChange> freed)
    {
        foreach (ControllerCase controller in controllers)
        {
            foreach (ZoneCase zone in controller.Zones.Where(z => z.Choices.Count == 0 && z.Lesser.Count == 0))
            {
                return zone.IsSeedbed && zone.FewestWateringsPerDay > controller.Profile.StartTimesPerProgram
                    ? $"{zone.Zone.Name} on {controller.Controller.Name} is a seedbed that wants {zone.FewestWateringsPerDay} waterings every day, and a program holds {controller.Profile.StartTimesPerProgram} start times."
                    : zone.FlowTenths > own.FlowLpm * 10
                        ? $"{zone.Zone.Name} on {controller.Controller.Name} draws {InWords.Flow(site, zone.Zone.Emission.FlowLpm)} and {supply} gives {InWords.Flow(site, own.FlowLpm)}."
                        : $"{zone.Zone.Name} on {controller.Controller.Name} cannot be kept from stress on any water days that {controller.Controller.Name} offers and {supply} permits: longest cycle {(zone.Need.LongestCycleSeconds is { } s ? InWords.Minutes(s / 60) : "any length")}, {controller.Profile.StartTimesPerProgram} start times, run times up to {InWords.Minutes(controller.Profile.RunTimeLimitSeconds / 60)}.";
            }
        }

        string missing = (minutes, flowTenths) switch
        {
            ( > 0, > 0) => $"{supply} is short on the busiest day: at least {InWords.Minutes(minutes.Value)} too few in its permitted hours, or {InWords.Flow(site, flowTenths.Value / 10.0)} too little flow.",
            ( > 0, _) => $"{supply} is short on the busiest day: at least {InWords.Minutes(minutes.Value)} too few in its permitted hours.",
            (_, > 0) => $"{supply} gives at least {InWords.Flow(site, flowTenths.Value / 10.0)} too little at once.",
            (null, null) => $"The programs and start times of the controllers on {supply} are too few for what the zones need.",
            _ => $"The programs of the controllers on {supply} cannot be timed so that they keep within permitted hours and flow on every date.",
        };
        return freed.OfType<MoreFlow>().Any() ? missing : $"{missing} More flow alone was not found to help.";
    }
}
