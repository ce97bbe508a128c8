using Google.OrTools.Sat;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Sprinklers;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Programs;

/// <summary>
/// Time and flow, as far as they can be judged without dates and start times: each rule here is a consequence of the exact ones.
/// </summary>
internal static class TimeAndFlowRules
{
    public static void Add(ProgramModel model)
    {
        ILookup<Facility, Taking> members = model.Takings.ToLookup(t => t.Facility);
        for (int c = 0; c < model.Controllers.Count; c++)
        {
            Facility[] own = [.. model.InUse.Keys.Where(f => f.Controller == c)];
            if (own.Length == 0)
            {
                continue;
            }

            if (!HasExempt(model.Controllers[c]))
            {
                EachProgramFitsItsHours(model, own, members);
                ProgramsThatMeetFitTogether(model, own, members);
                WeekdaysThatMustMeetFitTogether(model, own, members);
            }
        }

        if (model.Controllers.Count > 0)
        {
            TheTankHoldsWhatIsDrawn(model, members);
            ThePumpStartsSeldomEnough(model, members);
        }

        if (model.Controllers.Count > 0 && !model.Controllers.Any(HasExempt))
        {
            TheSupplyCarriesTheMeanDay(model, members);
        }
    }

    private static bool HasExempt(ControllerCase of) =>
        of.Supply.Permitted.DripIsExempt && of.Zones.Any(z => z.Zone.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler);

    /// <summary>Seconds that a program takes on a watering day: every run's stations, pauses between them and pump time.</summary>
    private static LinearExpr SecondsOf(ProgramModel model, Facility facility, IEnumerable<Taking> members)
    {
        ControllerCase of = model.Controllers[facility.Controller];
        int pause = of.Profile.PauseBetweenStationsSeconds;
        long perRun = of.SecondsAroundARun - pause;
        return ProgramModel.Sum(members, t => (long)facility.Cycles * (t.Choice.RunSeconds + pause)) + model.InUse[facility] * (
            perRun * facility.Cycles);
    }

    private static void EachProgramFitsItsHours(ProgramModel model, Facility[] own, ILookup<Facility, Taking> members)
    {
        foreach (Facility facility in own)
        {
            ControllerCase of = model.Controllers[facility.Controller];
            LinearExpr seconds = SecondsOf(model, facility, members[facility]);
            model.Model.Add(seconds <= model.ExtraSeconds + ControllerCase.PermittedSecondsOf(facility.Days));
            model.Model.Add(seconds <= facility.Cycles * (model.ExtraSeconds + ControllerCase.LongestSpanOf(facility.Days)));
        }
    }

    /// <summary>
    /// Daily programs meet all others; weekdays meet intervals sooner or later (unless the interval is whole weeks), and both meet
    /// odd and even dates: on the day when the longest of each kind meet, all of them must fit.
    /// </summary>
    private static void ProgramsThatMeetFitTogether(ProgramModel model, Facility[] own, ILookup<Facility, Taking> members)
    {
        long hours = own.Max(f => ControllerCase.PermittedSecondsOf(f.Days));
        List<LinearExpr> together = [];
        foreach (Facility daily in own.Where(f => f.Days.IsDaily))
        {
            together.Add(SecondsOf(model, daily, members[daily]));
        }

        foreach (IGrouping<DayRuleKind, Facility> family in own
            .Where(f => !f.Days.IsDaily && !(f.Days.Family == DayRuleKind.Interval && f.Days.Length % 7 == 0))
            .GroupBy(f => f.Days.Family))
        {
            IntVar longest = model.Model.NewIntVar(0, PermittedSpan.Day, $"longest {family.Key}");
            foreach (Facility facility in family)
            {
                model.Model.Add(SecondsOf(model, facility, members[facility]) <= longest);
            }

            together.Add(longest);
        }

        if (together.Count > 0)
        {
            model.Model.Add(LinearExpr.Sum(together) <= model.ExtraSeconds + hours);
        }
    }

    /// <summary>Two weekday programs with more than seven days between them share one of them.</summary>
    private static void WeekdaysThatMustMeetFitTogether(ProgramModel model, Facility[] own, ILookup<Facility, Taking> members)
    {
        long hours = own.Max(f => ControllerCase.PermittedSecondsOf(f.Days));
        Facility[] weekdays = [.. own.Where(f => f.Days.Family == DayRuleKind.DaysOfWeek && !f.Days.IsDaily)];
        for (int i = 0; i < weekdays.Length; i++)
        {
            for (int j = i + 1; j < weekdays.Length; j++)
            {
                if (weekdays[i].Days.Length + weekdays[j].Days.Length > 7)
                {
                    model.Model.Add(SecondsOf(model, weekdays[i], members[weekdays[i]]) + SecondsOf(
                        model, weekdays[j], members[weekdays[j]]) <= model.ExtraSeconds + hours);
                }
            }
        }
    }

    /// <summary>Litres of the mean day fit through the supply in the permitted hours; zones of more than half its flow take
    /// turns.</summary>
    private static void TheSupplyCarriesTheMeanDay(ProgramModel model, ILookup<Facility, Taking> members)
    {
        long hours = model.InUse.Keys.Select(f => (long)ControllerCase.PermittedSecondsOf(f.Days)).DefaultIfEmpty(0).Max();
        long supply = (long)Math.Floor(model.Controllers[0].Supply.FlowLpm * 10 + 1e-6);
        long Daily(Taking t) =>
            (long)Math.Floor(t.Choice.RunSeconds * t.Facility.Cycles * t.Facility.Days.Frequency * ControllerShare(t.Facility.Days));
        int Flow(Taking t) => model.Controllers[t.Facility.Controller].Zones[t.Zone].FlowTenths;
        model.Model.Add(ProgramModel.Sum(members.SelectMany(g => g), t => Daily(t) * Flow(t)) <= model.ExtraSeconds * supply
            + model.ExtraFlowTenths * hours + hours * supply);
        if (model.Relaxed != Limit.Flow)
        {
            model.Model.Add(ProgramModel
                .Sum(members.SelectMany(g => g).Where(t => 2 * Flow(t) > supply), Daily) <= model.ExtraSeconds + hours);
        }
    }

    /// <summary>The tank holds a date of each program, of all daily programs together, and the mean of a week.</summary>
    private static void TheTankHoldsWhatIsDrawn(ProgramModel model, ILookup<Facility, Taking> members)
    {
        StoredWater stored = model.Controllers[0].Stored;
        if (stored.LargestDraw(1) is not { } ofDate || stored.LargestDraw(StoredWater.MostDates) is not { } ofWeek) return;
        long Draw(Taking t) => (long)t.Facility.Cycles * t.Choice.RunSeconds
            * model.Controllers[t.Facility.Controller].Zones[t.Zone].FlowTenths;
        foreach (Facility facility in model.InUse.Keys) model.Model.Add(ProgramModel.Sum(members[facility], Draw) <= ofDate);
        Taking[] all = [.. members.SelectMany(g => g)];
        model.Model.Add(ProgramModel.Sum(all.Where(t => t.Facility.Days.IsDaily), Draw) <= ofDate);
        model.Model.Add(ProgramModel.Sum(all, t =>
            (long)Math.Floor(Draw(t) * t.Facility.Days.Frequency * ControllerShare(t.Facility.Days))) <= ofWeek / StoredWater.MostDates);
    }

    private static void ThePumpStartsSeldomEnough(ProgramModel model, ILookup<Facility, Taking> members)
    {
        foreach (Facility facility in model.InUse.Keys)
        {
            ControllerCase of = model.Controllers[facility.Controller];
            int least = of.Stored.LeastProgramSeconds(of.Profile);
            if (least > 0) model.Model.Add(
                ProgramModel.Sum(members[facility], t => (long)t.Choice.RunSeconds) >= model.InUse[facility] * least);
        }
    }

    /// <summary>Odd dates may skip a few days of the year, so the mean is taken a little low to stay a consequence.</summary>
    private static double ControllerShare(WaterDays days) => days.Family is DayRuleKind.Odd or DayRuleKind.Even ? 0.95 : 1;
}
