using System.Globalization;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>
/// Real days of the reference folder, written the way their agency publishes them: same headers, units, marks and dates; columns that a
/// record does not keep are left empty or out.
/// </summary>
internal static class AsPublished
{
    /// <summary>Real days; what the file does not hold is NaN.</summary>
    public static ListOf<DailyWeather> Days(string file, int skip, int count) =>
        Samples.Read(file).Good().Record!.Days.Skip(skip).Take(count).ToListOf();

    public static string MeteoSwiss(ListOf<DailyWeather> days) =>
        "station_abbr;reference_timestamp;tre200d0;tre200dx;tre200dn;ure200d0;pva200d0;rre150d0;rka150d0;gre000d0;sre000d0;fkl010d0;erefaod0\r\n" +
        Lines(days, d => Line(
            $"REH;{d.Date:dd.MM.uuuu} 00:00;;{d.TmaxC};{d.TminC};{Or(d.RhMeanPercent)};{Or(d.VapourPressureKpa * 10)};;{Or(d.RainMm)};{Or(d.RadiationMjM2 / 0.0864, "0")};;{Or(d.WindMs)};{Or(d.PublishedEtoMm)}\r\n"));

    public static string Knmi(ListOf<DailyWeather> days) =>
        "# BRON: KONINKLIJK NEDERLANDS METEOROLOGISCH INSTITUUT (KNMI)\n# \n# STN         LON(east)   LAT(north)  ALT(m)      NAME\n# " +
            "260         5.180       52.100      1.90        De Bilt\n" +
        "# 260:         5.180       52.100       1.90  DE BILT\n# \n# FG       = Daily mean windspeed (in 0.1 m/s);\n# \n" +
        "# STN,YYYYMMDD,DDVEC,FHVEC,   FG,   TG,   TN,   TX,   SQ,    Q,   RH,   UG,   UX,   UN, EV24\n# \n" +
        Lines(days, d => Line(
            $"  260,{d.Date:uuuuMMdd},  233,   20,{d.WindMs * 10,5:0},     ,{d.TminC * 10,5:0},{d.TmaxC * 10,5:0},     ,{d.RadiationMjM2 * 100,5:0},{(d.RainMm is > 0 and < 0.05 ? -1 : d.RainMm * 10),5:0},{d.RhMeanPercent,5:0},{d.RhMaxPercent,5:0},{d.RhMinPercent,5:0},    3\n"));

    public static string MetEireann(ListOf<DailyWeather> days) =>
        "Station Name: MOOREPARK\nStation Height: 46 M \nLatitude:52.164  ,Longitude: -8.264\n\n\ndate:  -  00 to 00 utc\nmaxtp: -  " +
            "Maximum Air Temperature (C)\nwdsp:  -  Mean Wind Speed (knot)\nind:   -  Indicator (i)\n\n" +
        "date,ind,maxtp,ind,mintp,igmin,gmin,ind,rain,cbl,wdsp,ind,hm,ind,ddhm,ind,hg,soil,pe,evap,smd_wd,smd_md,smd_pd,glorad\n" +
        Lines(days, d => Line(
            $"{d.Date.ToString("dd-MMM-uuuu", CultureInfo.InvariantCulture).ToLowerInvariant()},0,{d.TmaxC},0,{d.TminC},0,5.1,0,{d.RainMm},1010.1,{d.WindMs / 0.5144444:0.0},0,9,0,250,0,14,10.1,{Or(d.PublishedEtoMm)}, ,0,0,0,{Or(d.RadiationMjM2 * 100, "0")}\n"));

    public static string AgriMet(ListOf<DailyWeather> days) =>
        "Provisional data, subject to change.\n\nBEGIN DATA\nDATE      ,   FALN MX  ,   FALN MN  ,   FALN SR  ,   FALN UA  ,   FALN YM  " +
            ",   FALN ETOS\n" +
        Lines(days, d => Line(
            $"{d.Date:MM/dd/uuuu},{Us(F(d.TmaxC))},{Us(F(d.TminC))},{Us(d.RadiationMjM2 / 0.041868)},{Us(d.WindMs / 0.44704)},{Us(F(d.DewPointC))},{Us(d.PublishedEtoMm / 25.4)}\n")) +
        "END DATA\nQuestions? Write to the agency.\n";

    /// <summary>28 numbers a day; 999 stands for what the reference record does not hold.</summary>
    public static string Azmet(ListOf<DailyWeather> days) => Lines(days, d => Line(
        $"{d.Date.Year},{d.Date.DayOfYear},6,{d.TmaxC},{d.TminC},999,{d.RhMaxPercent},{d.RhMinPercent},999,999,{d.RadiationMjM2},{d.RainMm},999,999,999,999,999,999,{d.WindMs},1.1,250,40,5.5,0,999,{d.PublishedEtoMm},999,{d.DewPointC}\n"));

    private static string Us(double value) =>
        double.IsNaN(value) ? "   NO RECORD" : value.ToString("0.000", CultureInfo.InvariantCulture).PadLeft(12);

    private static double F(double celsius) => (celsius * 1.8) + 32;

    private static string Or(double value, string format = "0.0##") =>
        double.IsNaN(value) ? "" : value.ToString(format, CultureInfo.InvariantCulture);

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Lines(ListOf<DailyWeather> days, Func<DailyWeather, string> line) => string.Concat(days.Select(line));
}
