using System.Globalization;
using System.Text;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Season;

/// <summary>A season as comma-separated values (RFC 4180) for the office; SI units, dates of one year.</summary>
public static class SeasonTable
{
    /// <summary>One line per visit and controller: what is set, and until when.</summary>
    public static string Visits(Plan plan, int year, Language language = Language.English)
    {
        ArgumentNullException.ThrowIfNull(plan);
        StringBuilder text = new(Wording.In(language)["table.visits"] + "\r\n");
        foreach ((LocalDate date, string controller, int percent, LocalDate until, string besides) in plan.Controllers
            .SelectMany(c => ProgramChange.ByVisit(c).Select(
                (changes, i) => (Date: c.Visits[i].Date.InYear(year), c.Controller, c.Visits[i].Percent, Until: Next(c, i, year),
                    ChangeWords.Of(changes, language))))
            .OrderBy(v => v.Date))
        {
            text.AppendJoin(',', $"{date:uuuu-MM-dd}", Sentences.Say(date.DayOfWeek.ToString(), language), Quoted(controller),
                percent.ToString(CultureInfo.InvariantCulture), $"{until:uuuu-MM-dd}", Quoted(besides)).Append("\r\n");
        }

        return text.ToString();
    }

    /// <summary>One line per week: what the plants need, rain, irrigation, and how full the store is.</summary>
    public static string Weeks(YearOfWater water, Language language = Language.English)
    {
        ArgumentNullException.ThrowIfNull(water);
        StringBuilder text = new(Wording.In(language)["table.weeks"] + "\r\n");
        for (int week = 0; week < water.Weeks.Count; week++)
        {
            WeekOfWater one = water.Weeks[week];
            LocalDate from = water.Begins.InYear(2001).PlusDays(7 * week);
            text.AppendJoin(',',
                [$"{from:MM-dd}", .. new[] { one.NeedMm, one.RainMm, one.WaterMm, one.StorePercent, one.DryStorePercent }.Select(
                    v => v.ToString("0.0", CultureInfo.InvariantCulture))]).Append("\r\n");
        }

        return text.ToString();
    }

    private static LocalDate Next(ControllerPlan plan, int visit, int year) =>
        visit + 1 < plan.Visits.Count ? plan.Visits[visit + 1].Date.InYear(year) : plan.Visits[0].Date.InYear(year + 1);

    private static string Quoted(string cell) =>
        cell.AsSpan().ContainsAny("\",\r\n") || cell.AsSpan().Trim().Length != cell.Length
            ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
}
