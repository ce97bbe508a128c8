using NodaTime;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Cards;

/// <summary>Which percent adjust a plan wants on a date.</summary>
internal static class PercentByDate
{
    /// <summary>The percent that the last visit up to the date leaves; 0 means off.</summary>
    public static int On(ControllerPlan plan, LocalDate date)
    {
        if (plan.Visits.Count == 0)
        {
            return plan.Settings.PercentAdjust;
        }

        Visit? visit = plan.Visits.Where(v => v.Date.InYear(date.Year) <= date).MaxBy(v => v.Date.InYear(date.Year));
        return (visit ?? plan.Visits.MaxBy(v => v.Date.InYear(date.Year))!).Percent;
    }

    /// <summary>The last date up to <paramref name="end"/> before another visit comes.</summary>
    public static LocalDate LastDayOf(ControllerPlan plan, LocalDate date, LocalDate end)
    {
        LocalDate last = end;
        foreach (Visit visit in plan.Visits)
        {
            LocalDate thisYear = visit.Date.InYear(date.Year);
            LocalDate next = thisYear > date ? thisYear : visit.Date.InYear(date.Year + 1);
            last = LocalDate.Min(last, next.PlusDays(-1));
        }

        return last;
    }
}
