using System.Globalization;
using System.Text;
using NodaTime.Text;

namespace Valvewright.Files.Timelines;

/// <summary>Waterings as comma-separated values (RFC 4180), one line a watering, times both as people live them and in UTC.</summary>
public static class TimelineCsv
{
    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss");

    /// <summary>The table with its header line.</summary>
    public static string Write(SiteWaterings site)
    {
        ArgumentNullException.ThrowIfNull(site);
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[site.TimeZone];
        StringBuilder text = new("controller,station,zone,supply,program,start,opens,closes,opens_utc,closes_utc,seconds,litres,carried_in\r\n");
        foreach (Watering watering in site.Waterings)
        {
            text.AppendJoin(',', Cells(watering, zone).Select(Quoted)).Append("\r\n");
        }

        return text.ToString();
    }

    private static string[] Cells(Watering w, DateTimeZone zone) =>
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
        w.CarriedIn ? "yes" : "no",
    ];

    private static string Quoted(string cell) =>
        cell.AsSpan().ContainsAny("\",\r\n") || cell.AsSpan().Trim().Length != cell.Length ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
}
