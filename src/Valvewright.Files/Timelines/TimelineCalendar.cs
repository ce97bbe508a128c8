using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime.Text;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Timelines;

/// <summary>Waterings as an iCalendar object (RFC 5545).</summary>
/// <remarks>
/// All times are in UTC. A clock that ignores daylight saving repeats exactly in UTC, and one that knows it repeats exactly
/// between two changes; so each stretch of equal waterings becomes one event with a rule, no time zone has to be sent
/// along, and every calendar shows the same instants, whichever rules for daylight saving it knows. What no rule gives
/// exactly is an event of its own.
/// </remarks>
public static class TimelineCalendar
{
    private static readonly InstantPattern Moment = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");

    /// <summary>The calendar's text.</summary>
    public static string Write(SiteWaterings site, Language language = Language.English)
    {
        ArgumentNullException.ThrowIfNull(site);
        Instant stamp = DateTimeZoneProviders.Tzdb[site.TimeZone].AtStartOfDay(site.From).ToInstant();
        Wording words = Wording.In(language);
        CalendarText text = new();
        text.Line("BEGIN", "VCALENDAR")
            .Line("VERSION", "2.0")
            .Line("PRODID", "-//Valvewright//Timeline//EN")
            .Line("CALSCALE", "GREGORIAN")
            .Line("METHOD", "PUBLISH")
            .Words("X-WR-CALNAME", words.Fill("calendar.watering", ("site", site.Site)))
            .Line("X-WR-TIMEZONE", site.TimeZone);
        foreach (IGrouping<object, Watering> alike in site.Waterings.GroupBy(Alike))
        {
            Dictionary<LocalDate, Watering> byDate = alike.ToDictionary(w => w.Opens.InUtc().Date);
            foreach (DateRule rule in DateRule.Split([.. byDate.Keys.Order()]))
            {
                Event(text, site, rule, byDate, stamp, words);
            }
        }

        return text.Line("END", "VCALENDAR").ToString();
    }

    /// <summary>What events of one rule have in common: everything but the date.</summary>
    private static object Alike(Watering w) =>
        (w.Controller, w.Station, w.Zone, w.Program, w.Start, w.Seconds, w.FlowLpm, w.Opens.InUtc().TimeOfDay);

    private static void Event(CalendarText text, SiteWaterings site, DateRule rule, Dictionary<LocalDate, Watering> byDate,
        Instant stamp, Wording words)
    {
        Watering first = byDate[rule.Dates[0]];
        string zone = first.Zone.Length > 0 ? $" {first.Zone}" : "";
        text.Line("BEGIN", "VEVENT")
            .Line("UID", Identity(site, first))
            .Line("DTSTAMP", Moment.Format(stamp))
            .Line("DTSTART", Moment.Format(first.Opens))
            .Line("DTEND", Moment.Format(first.Closes));
        if (rule.Dates.Count > 1)
        {
            text.Line("RRULE", $"{rule.Parts};UNTIL={Moment.Format(byDate[rule.Dates[^1]].Opens)}");
        }

        text.Words("SUMMARY", $"{first.Controller} {first.Station}{zone}")
            .Words("DESCRIPTION", words.Fill("calendar.run", ("station", first.Station), ("controller", first.Controller),
                ("program", first.Program), ("start", first.Start + 1))
                + "\n" + words.Fill("calendar.water", ("minutes", (first.Seconds / 60.0).ToString("0.##", CultureInfo.InvariantCulture)),
                    ("litres", first.Litres.ToString("0", CultureInfo.InvariantCulture)), ("supply", first.Supply)))
            .Words("LOCATION", site.Site)
            .Line("TRANSP", "TRANSPARENT")
            .Line("END", "VEVENT");
    }

    /// <summary>The same watering has the same identity in every calendar, so that a newer file replaces an older one.</summary>
    private static string Identity(SiteWaterings site, Watering first)
    {
        string what = $"{site.Site}\n{first.Controller}\n{first.Station}\n{first.Program}\n{first.Start}\n{Moment.Format(first.Opens)}";
        byte[] digest = SHA256.HashData(Encoding.UTF8.GetBytes(what));
        return new Guid(digest.AsSpan(0, 16)).ToString("D");
    }
}
