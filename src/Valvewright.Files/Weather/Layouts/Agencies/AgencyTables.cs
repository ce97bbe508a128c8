using System.Globalization;
using Valvewright.Engine.Survey;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Agencies;

/// <summary>The daily tables of national and state services, as they publish them.</summary>
internal static class AgencyTables
{
    /// <summary>
    /// MeteoSwiss open data: semicolons, <c>station_abbr;reference_timestamp;...</c> (or <c>station/location;date;...</c>), parameters by
    /// their codes, no place in the file. Rain from midnight (rka150d0) is preferred to rain from 6 UTC (rre150d0). Wind at 10 m.
    /// </summary>
    private static readonly AgencyTable MeteoSwiss = new(
        WeatherLayout.MeteoSwissCsv, "MeteoSwiss", ';',
        new("tre200dx", Quantity.TmaxC, Unit.Celsius), new("tre200dn", Quantity.TminC, Unit.Celsius),
        new("rka150d0", Quantity.RainMm, Unit.Millimetre), new("rre150d0", Quantity.RainMm, Unit.Millimetre),
        new("ure200d0", Quantity.RhMeanPercent, Unit.PerCent), new("pva200d0", Quantity.VapourPressureKpa, Unit.Hectopascal),
            new("tde200d0", Quantity.DewPointC, Unit.Celsius),
        new("gre000d0", Quantity.RadiationMjM2, Unit.Watt), new("sre000d0", Quantity.SunshineHours, Unit.Minute),
        new("fkl010d0", Quantity.WindMs, Unit.MetrePerSecond), new("erefaod0", Quantity.PublishedEtoMm, Unit.Millimetre))
    {
        HeaderWords = ["tre200dx", "tre200dn"],
        Date = (["reference_timestamp", "date"], DayMonthYearOrIso, "a date as 31.12.2021 or 20211231"),
        StationColumn = "station_abbr",
        WindHeightM = 10,
        MissingWords = ["-"],
        HeaderName = static name => name == "station/location" ? "station_abbr" : name,
    };

    /// <summary>
    /// KNMI daily values (etmgeg): remarks, a line a station with longitude, latitude and altitude in some files, then
    /// <c>STN,YYYYMMDD,...</c>. Tenths of
    /// degrees, m/s, hours and mm; -1 in SQ and RH is less than half of the last digit. EV24 is Makkink's formula and not used. Wind at 10
    /// m.
    /// </summary>
    private static readonly AgencyTable Knmi = new(
        WeatherLayout.KnmiDaily, "KNMI, CC BY 4.0", ',',
        new("TX", Quantity.TmaxC, Unit.TenthCelsius), new("TN", Quantity.TminC, Unit.TenthCelsius),
            new("RH", Quantity.RainMm, Unit.TenthMillimetre),
        new("UX", Quantity.RhMaxPercent, Unit.PerCent), new("UN", Quantity.RhMinPercent, Unit.PerCent),
            new("UG", Quantity.RhMeanPercent, Unit.PerCent),
        new("Q", Quantity.RadiationMjM2, Unit.JoulePerCm2), new("SQ", Quantity.SunshineHours, Unit.TenthHour),
            new("FG", Quantity.WindMs, Unit.TenthMetrePerSecond))
    {
        HeaderWords = ["STN", "YYYYMMDD"],
        Date = (["YYYYMMDD"], Dates.TryIso, "a date as 20211231"),
        StationColumn = "STN",
        WindHeightM = 10,
        Meant = static (column, value) => value == -1 && column.Name is "RH" or "SQ" ? 0 : value,
        ReadHead = KnmiPlace,
        HeaderName = static name => name.TrimStart('#', ' '),
    };

    /// <summary>
    /// Met Eireann daily data (dly*.csv): name, height, latitude and longitude of the station, a legend, then <c>date,ind,maxtp,...</c>
    /// with dates as 01-jan-2011. Wind in knots, measured at 10 m; radiation in J/cm2; pe is Penman-Monteith.
    /// </summary>
    private static readonly AgencyTable MetEireann = new(
        WeatherLayout.MetEireannCsv, "Copyright Met Eireann, source met.ie, CC BY 4.0; units changed", ',',
        new("maxtp", Quantity.TmaxC, Unit.Celsius), new("mintp", Quantity.TminC, Unit.Celsius),
            new("rain", Quantity.RainMm, Unit.Millimetre),
        new("glorad", Quantity.RadiationMjM2, Unit.JoulePerCm2), new("g_rad", Quantity.RadiationMjM2, Unit.JoulePerCm2),
            new("sun", Quantity.SunshineHours, Unit.Hour),
        new("wdsp", Quantity.WindMs, Unit.Knot), new("pe", Quantity.PublishedEtoMm, Unit.Millimetre))
    {
        HeaderWords = ["date", "maxtp", "mintp"],
        Date = (["date"], Dates.TryDayMonthName, "a date as 31-dec-2021"),
        WindHeightM = 10,
        ReadHead = MetEireannPlace,
    };

    /// <summary>
    /// US Bureau of Reclamation AgriMet: BEGIN DATA, a header of station and parameter code (<c>FALN MX</c>), rows with dates
    /// month/day/year, END DATA. US units; the height of the wind differs from station to station.
    /// </summary>
    private static readonly AgencyTable AgriMet = new(
        WeatherLayout.AgriMetDaily, "US Bureau of Reclamation, AgriMet", ',',
        new("MX", Quantity.TmaxC, Unit.Fahrenheit), new("MN", Quantity.TminC, Unit.Fahrenheit), new("PP", Quantity.RainMm, Unit.Inch),
        new("YM", Quantity.DewPointC, Unit.Fahrenheit), new("TA", Quantity.RhMeanPercent, Unit.PerCent),
            new("SR", Quantity.RadiationMjM2, Unit.Langley),
        new("UA", Quantity.WindMs, Unit.MilePerHour), new("ETOS", Quantity.PublishedEtoMm, Unit.Inch))
    {
        HeaderWords = ["DATE", "MX", "MN"],
        Date = (["DATE"], Dates.TryMonthDayYear, "a date as 12/31/2021 (month/day/year)"),
        MissingWords = ["NO RECORD", "MISSING", "998877.00", "998877"],
        EndLine = "END DATA",
        HeaderName = AgriMetCode,
    };

    /// <summary>All of them.</summary>
    public static readonly AgencyTable[] All = [MeteoSwiss, Knmi, MetEireann, AgriMet];

    /// <summary>The table of a layout; null where the layout is none of these.</summary>
    public static AgencyTable? Of(WeatherLayout layout) => Array.Find(All, table => table.Layout == layout);

    /// <summary>31.12.2021 with or without a time, or 20211231.</summary>
    private static bool DayMonthYearOrIso(ReadOnlySpan<char> text, out NodaTime.LocalDate date) =>
        Dates.TryDayMonthYear(text, out date) || Dates.TryIso(text, out date);

    /// <summary>The line "# 260:  5.180  52.100  1.90  DE BILT": longitude, latitude, altitude, name.</summary>
    private static void KnmiPlace(ReadingJob job, IReadOnlyList<string> head, string? station)
    {
        foreach (string line in head)
        {
            string[] parts = line.TrimStart('#', ' ').Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
            if (parts.Length >= 4 && parts[0] == $"{station}:" && Number(parts[1]) is { } longitude && Number(parts[2]) is { } latitude
                && Number(parts[3]) is { } altitude
                && Math.Abs(latitude) <= 90 && Math.Abs(longitude) <= 180)
            {
                job.Place = new Place(latitude, longitude, altitude);
                job.Station = string.Join(' ', parts[4..]) is { Length: > 0 } name ? name : job.Station;
            }
        }
    }

    private static void MetEireannPlace(ReadingJob job, IReadOnlyList<string> head, string? station)
    {
        double height = double.NaN, latitude = double.NaN, longitude = double.NaN;
        foreach (string fact in head.SelectMany(line => line.Split(',')))
        {
            int colon = fact.IndexOf(':', StringComparison.Ordinal);
            string key = colon < 0 ? "" : fact[..colon].Trim().ToLowerInvariant(), value = fact[(colon + 1)..].Trim();
            double? number = Number(value.Split(' ')[0]);
            switch (key)
            {
                case "station name": job.Station = value; break;
                case "station height": height = number ?? double.NaN; break;
                case "latitude": latitude = number ?? double.NaN; break;
                case "longitude": longitude = number ?? double.NaN; break;
            }
        }

        if (Math.Abs(latitude) <= 90 && Math.Abs(longitude) <= 180)
        {
            job.Place = new Place(latitude, longitude, height);
        }
    }

    /// <summary>The parameter code of "FALN MX"; of "DATE", itself.</summary>
    private static string AgriMetCode(string name)
    {
        string[] parts = name.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return parts.Length == 0 ? "" : parts[^1];
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number)
            ? number : null;
}
