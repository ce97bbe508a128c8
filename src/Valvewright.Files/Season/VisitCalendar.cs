using System.Security.Cryptography;
using System.Text;
using NodaTime.Text;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Files.Texts;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Season;

/// <summary>The visits of a season as an iCalendar object (RFC 5545): an event of a whole day each.</summary>
public static class VisitCalendar
{
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd");

    /// <summary>The calendar's text.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">The plan with its visits.</param>
    /// <param name="from">The first date on which it is in force; each visit's first event is on or after it.</param>
    /// <param name="everyYear">Whether the visits come back every year; not where they were planned for the weekdays of one year. Those
    /// for a seedbed never do.</param>
    /// <param name="language">The language of its words.</param>
    public static string Write(Site site, Plan plan, LocalDate from, bool everyYear, Language language = Language.English)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        Wording words = Wording.In(language);
        HashSet<AnnualDate> all = [.. VisitDates.Of(site, plan).All];
        AnnualDate[] once = [.. site.Controllers.SelectMany(SeedbedVisits.VisitsOf)];
        CalendarText text = new();
        text.Line("BEGIN", "VCALENDAR")
            .Line("VERSION", "2.0")
            .Line("PRODID", "-//Valvewright//Season//EN")
            .Line("CALSCALE", "GREGORIAN")
            .Line("METHOD", "PUBLISH")
            .Words("X-WR-CALNAME", words.Fill("calendar.visits", ("site", plan.Site)));
        foreach (IGrouping<AnnualDate, (string Controller, Visit Visit, string Besides)> visit in plan.Controllers
            .SelectMany(c => ProgramChange.ByVisit(c)
                .Select((changes, i) => (c.Controller, Visit: c.Visits[i], ChangeWords.Of(changes, language))))
            .Where(v => all.Contains(v.Visit.Date))
            .GroupBy(v => v.Visit.Date)
            .OrderBy(v => First(v.Key, from)))
        {
            LocalDate first = First(visit.Key, from);
            string settings = string.Join(", ", visit.Select(v =>
                $"{v.Controller} {(v.Visit.Percent == 0 ? words["card.off"] : words.Percent(v.Visit.Percent))}{(v.Besides.Length == 0 ? "" : $" ({v.Besides})")}"));
            text.Line("BEGIN", "VEVENT")
                .Line("UID", Identity(plan.Site, visit.Key))
                .Line("DTSTAMP", $"{Day.Format(from)}T000000Z")
                .Line("DTSTART;VALUE=DATE", Day.Format(first));
            if (everyYear && !once.Contains(visit.Key))
            {
                text.Line("RRULE", "FREQ=YEARLY");
            }

            text.Words("SUMMARY", words.Fill("calendar.set", ("site", plan.Site), ("settings", settings)))
                .Line("TRANSP", "TRANSPARENT")
                .Line("END", "VEVENT");
        }

        return text.Line("END", "VCALENDAR").ToString();
    }

    private static LocalDate First(AnnualDate date, LocalDate from) =>
        date.InYear(from.Year) is var first && first >= from ? first : date.InYear(from.Year + 1);

    private static string Identity(string site, AnnualDate date) =>
        $"{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{site} {date.Month} {date.Day}")))[..32]}@valvewright";
}
