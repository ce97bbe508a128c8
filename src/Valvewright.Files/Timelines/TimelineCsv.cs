using System.Globalization;
using System.Text;
using NodaTime.Text;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Timelines;

/// <summary>Waterings as comma-separated values (RFC 4180), one line per run, times local and in UTC.</summary>
public static class TimelineCsv
{
    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss");

    /// <summary>The table with its header line.</summary>
    public static string Write(SiteWaterings site, Language language = Language.English)
    {
        ArgumentNullException.ThrowIfNull(site);
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[site.TimeZone];
        Wording words = Wording.In(language);
        StringBuilder text = new(words["table.timeline"] + "\r\n");
        foreach (Watering watering in site.Waterings)
        {
            text.AppendJoin(',', Cells(watering, zone, words).Select(Quoted)).Append("\r\n");
        }

        return text.ToString();
    }

    private static string[] Cells(Watering w, DateTimeZone zone, Wording words) =>
    [
        w.Controller,
        w.Station.ToString(CultureInfo.InvariantCulture),
        w.Zone,
        w.Supply,
        w.Program.ToString(),
        (w.Start + 1).ToString(CultureInfo.InvariantCulture),
        Local.Format(w.Opens.InZone(zone).LocalDateTime),
        Local.Format(w.Closes.InZone(zone).LocalDateTime),
        InstantPattern.General.Format(w.Opens),
        InstantPattern.General.Format(w.Closes),
        w.Seconds.ToString(CultureInfo.InvariantCulture),
        w.Litres.ToString("0.###", CultureInfo.InvariantCulture),
        words[w.CarriedIn ? "table.yes" : "table.no"],
    ];

    private static string Quoted(string cell) =>
        cell.AsSpan().ContainsAny("\",\r\n") || cell.AsSpan().Trim().Length != cell.Length
            ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
}
