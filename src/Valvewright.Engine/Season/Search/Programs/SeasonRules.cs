using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season.Search.Programs;

/// <summary>Whether what visits set keeps the rules, by the proof's own check on every day of four years of calendar.</summary>
/// <remarks>
/// Programs of a visit, and percents above 100, are tried all year with the other controllers all year at 100 %: they hold on any date, also when a
/// visit comes early or late. What the plan breaks already, as it is at 100 % all year, is not held against them.
/// </remarks>
internal sealed class SeasonRules(Site site, Plan plan, LocalDate from)
{
    private const int Full = 100;

    /// <summary>A whole round of leap years.</summary>
    private const int CalendarYears = 4;

    private readonly Dictionary<(string Controller, ListOf<Program> Programs, int Percent), bool> known = [];
    private readonly Dictionary<string, HashSet<(BreachKind Kind, string Where)>> before = [];

    /// <summary>Whether a controller may hold these programs at this percent all year.</summary>
    public bool Hold(string controller, ListOf<Program> programs, int percent)
    {
        if (!known.TryGetValue((controller, programs, percent), out bool holds))
        {
            string supply = site.ControllerNamed(controller).Supply;
            holds = Breaches(supply, c => c.Controller == controller ? Steady(c, programs, percent) : Steady(c, c.Settings.Programs, Full)).IsSubsetOf(Before(supply));
            known.Add((controller, programs, percent), holds);
        }

        return holds;
    }

    /// <summary>The largest percent at which a controller keeps the rules with the programs of its plan, at least 100.</summary>
    public int LargestPercent(string controller)
    {
        ListOf<Program> programs = plan.For(controller).Settings.Programs;
        return site.ControllerNamed(controller).Profile.Percent.Settings().Where(p => p > Full).Order().TakeWhile(p => Hold(controller, programs, p)).LastOrDefault(Full);
    }

    /// <summary>Whether a plan with its visits keeps the rules.</summary>
    public bool Hold(Plan visited) => site.Supplies.All(s => Breaches(s.Name, c => visited.For(c.Controller)).IsSubsetOf(Before(s.Name)));

    private HashSet<(BreachKind Kind, string Where)> Before(string supply)
    {
        if (!before.TryGetValue(supply, out HashSet<(BreachKind Kind, string Where)>? found))
        {
            before.Add(supply, found = Breaches(supply, c => Steady(c, c.Settings.Programs, Full)));
        }

        return found;
    }

    private static ControllerPlan Steady(ControllerPlan own, ListOf<Program> programs, int percent) =>
        own with { Settings = own.Settings with { Programs = programs, PercentAdjust = percent }, Visits = [] };

    private HashSet<(BreachKind Kind, string Where)> Breaches(string supply, Func<ControllerPlan, ControllerPlan> set)
    {
        ListOf<SiteController> drawing = site.Controllers.Where(c => c.Supply == supply).ToListOf();
        Site part = site with { Controllers = drawing, Supplies = site.Supplies.Where(s => s.Name == supply).ToListOf() };
        Plan tried = plan with { Controllers = plan.Controllers.Where(c => drawing.Any(d => d.Name == c.Controller)).Select(set).ToListOf() };
        return [.. RulesCheck.Of(part, tried, from, from.PlusYears(CalendarYears).PlusDays(-1)).Breaches.Select(b => (b.Kind, b.Where))];
    }
}
