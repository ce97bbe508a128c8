using System.Security.Cryptography;
using System.Text;
using NodaTime.Text;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Rounds;

/// <summary>A line of advice in the words of a calendar.</summary>
/// <param name="Site">The site.</param>
/// <param name="On">The date that it is for.</param>
/// <param name="Words">What to do.</param>
public sealed record AdviceEvent(string Site, LocalDate On, string Words);

/// <summary>Advice for many sites as an iCalendar object (RFC 5545): an event of a whole day each.</summary>
public static class AdviceCalendar
{
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd");

    /// <summary>The calendar's text; a site keeps the identity of its event from night to night, so a calendar moves it.</summary>
    /// <param name="name">The calendar's name.</param>
    /// <param name="made">The date of the advice.</param>
    /// <param name="events">The lines.</param>
    public static string Write(string name, LocalDate made, ListOf<AdviceEvent> events)
    {
        ArgumentNullException.ThrowIfNull(events);
        CalendarText text = new();
        text.Line("BEGIN", "VCALENDAR").Line("VERSION", "2.0").Line("PRODID", "-//Valvewright//Rounds//EN")
            .Line("CALSCALE", "GREGORIAN").Line("METHOD", "PUBLISH").Words("X-WR-CALNAME", name);
        foreach (AdviceEvent line in events)
        {
            string identity = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"advice {line.Site}")))[..32];
            text.Line("BEGIN", "VEVENT").Line("UID", $"{identity}@valvewright").Line("DTSTAMP", $"{Day.Format(made)}T000000Z")
                .Line("DTSTART;VALUE=DATE", Day.Format(line.On)).Words("SUMMARY", line.Words).Line("TRANSP", "TRANSPARENT")
                .Line("END", "VEVENT");
        }

        return text.Line("END", "VCALENDAR").ToString();
    }
}
