using NodaTime;

namespace Valvewright.Engine.Needs;

/// <summary>What a zone asks for in one of the 52 weeks of the year.</summary>
/// <param name="Week">1 to 52; week 1 begins on 1 January, week 52 has 8 or 9 days.</param>
/// <param name="Begins">Its first date.</param>
/// <param name="UseMm">What the plants use when they lack nothing, KL x ETo.</param>
/// <param name="NetMm">What irrigation must bring to an evenly watered root zone, after rain and store have been used.</param>
/// <param name="GrossMm">The same at the sprinklers: net x run-time multiplier / part that reaches the ground.</param>
public sealed record WeekDemand(int Week, AnnualDate Begins, YearRange UseMm, YearRange NetMm, YearRange GrossMm)
{
    /// <summary>The week that a date lies in, 1 to 52.</summary>
    public static int WeekOf(LocalDate date)
    {
        int day = date.DayOfYear - (date.Month > 2 && CalendarSystem.Iso.IsLeapYear(date.Year) ? 1 : 0);
        return Math.Min(52, (day - 1) / 7 + 1);
    }

    /// <summary>The first date of a week.</summary>
    public static AnnualDate BeginOf(int week)
    {
        LocalDate date = new LocalDate(2001, 1, 1).PlusDays(7 * (week - 1));
        return new AnnualDate(date.Month, date.Day);
    }

    /// <summary>The last date of a week.</summary>
    public static AnnualDate EndOf(int week)
    {
        LocalDate date = week >= 52 ? new LocalDate(2001, 12, 31) : new LocalDate(2001, 1, 1).PlusDays(7 * week - 1);
        return new AnnualDate(date.Month, date.Day);
    }
}
