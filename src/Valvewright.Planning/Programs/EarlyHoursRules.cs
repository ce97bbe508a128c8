using Google.OrTools.Sat;
using Valvewright.Engine.Controllers;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;

namespace Valvewright.Planning.Programs;

/// <summary>
/// A price on overhead water that can't all run in the early hours of one date: programs that meet sooner or later are added up. (Without
/// it a controller may be given programs for which only evening or midday is left, where other days would do.)
/// </summary>
internal static class EarlyHoursRules
{
    /// <summary>An hour of overhead water outside the early hours on the fullest date is worth this part of the controller's
    /// cost.</summary>
    private const double WorthOfAnHour = 0.02;

    private const int LeftUnusedSeconds = 15 * 60;

    /// <summary>Intervals up to this many days are looked at in pairs.</summary>
    private const int LongestPaired = 8;

    /// <summary>Adds the rules of one controller; the price of what lies outside.</summary>
    public static LinearExpr PriceOf(ProgramModel model, int controller, EarlyHours early)
    {
        ControllerCase of = model.Controllers[controller];
        ILookup<Facility, Taking> members = model.Takings
            .Where(t => t.Facility.Controller == controller && !of.Zones[t.Zone].IsDrip && !of.Zones[t.Zone].IsSeedbed)
            .ToLookup(t => t.Facility);
        if (members.Count == 0)
        {
            return LinearExpr.Constant(0);
        }

        IntVar outside = model.Model.NewIntVar(0, 2 * PermittedSpan.Day / 60, "minutes outside the early hours");
        int best = members.Max(f => Overlap(f.Key.Days, early));
        List<IntVar> onEveryDate = [];
        Dictionary<DayRuleKind, List<IntVar>> families = [];
        List<(int Days, IntVar Longest)> intervals = [];
        foreach (IGrouping<(DayRuleKind Family, int Length), IGrouping<Facility, Taking>> spread in members
            .GroupBy(f => (f.Key.Days.Family, f.Key.Days.Length)))
        {
            WaterDays days = spread.First().Key.Days;
            IntVar longest = model.Model.NewIntVar(0, PermittedSpan.Day, "overhead seconds");
            foreach (IGrouping<Facility, Taking> facility in spread)
            {
                model.Model.Add(ProgramModel.Sum(facility, t => (long)t.Choice.RunSeconds * facility.Key.Cycles) <= longest);
            }

            model.Model.Add(longest - Overlap(days, early) <= outside * 60);
            if (days.IsDaily)
            {
                onEveryDate.Add(longest);
            }
            else if (days.Family == DayRuleKind.Interval && days.Length <= LongestPaired)
            {
                intervals.Add((days.Length, longest));
            }
            else if (days.Family != DayRuleKind.Interval)
            {
                families.TryAdd(days.Family, []);
                families[days.Family].Add(longest);
            }
        }

        // Weekdays, odd or even dates and intervals all meet sooner or later; of each family the longest program is counted.
        foreach (List<IntVar> family in families.Values)
        {
            IntVar longest = model.Model.NewIntVar(0, PermittedSpan.Day, "overhead seconds of a family");
            family.ForEach(spread => model.Model.Add(spread <= longest));
            onEveryDate.Add(longest);
        }

        LinearExpr meets = LinearExpr.Sum(onEveryDate);
        model.Model.Add(meets - best <= outside * 60);
        foreach ((int days, IntVar longest) in intervals)
        {
            model.Model.Add(meets + longest - best <= outside * 60);
            foreach ((int other, IntVar longestOther) in intervals.Where(o => o.Days > days && Gcd(days, o.Days) == 1))
            {
                model.Model.Add(meets + longest + longestOther - best <= outside * 60);
            }
        }

        long litres = of.Zones.Where(z => z.Choices.Count > 0).Sum(z => z.Choices.Min(c => c.CostLitres));
        return outside * Math.Max(1, (long)Math.Round(WorthOfAnHour / 60 * litres));
    }

    /// <summary>How much of the early hours is permitted on dates of the spread, less what quarters of an hour leave unused.</summary>
    private static int Overlap(WaterDays days, EarlyHours early) =>
        -LeftUnusedSeconds + days.Phases
            .Max(p => p.Spans.Sum(s => Math.Max(0, Math.Min(s.To, early.Closes) - Math.Max(s.From, early.Opens))));

    private static int Gcd(int a, int b) => b == 0 ? a : Gcd(b, a % b);
}
