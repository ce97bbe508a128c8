using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Ghcn;

/// <summary>
/// The elements of GHCN-Daily that a record can use, in the units of the .dly file, the long CSV and the station CSV
/// (NOAA, readme.txt of GHCN-Daily, section III: tenths of degrees C, of mm and of m/s; percent; minutes).
/// </summary>
internal static class GhcnElements
{
    public const string MultiDayRain = "MDPR";
    public const string MultiDayRainDays = "DAPR";

    /// <summary>Source line for a record.</summary>
    public const string Source = "NOAA GHCN-Daily, open data";

    /// <summary>Height of the wind of US airport stations, m (common practice; the files do not say).</summary>
    public const double WindHeightM = 10;

    private static readonly Dictionary<string, (Quantity Quantity, Unit Tenths)> Known = new()
    {
        ["TMAX"] = (Quantity.TmaxC, Unit.TenthCelsius),
        ["TMIN"] = (Quantity.TminC, Unit.TenthCelsius),
        ["PRCP"] = (Quantity.RainMm, Unit.TenthMillimetre),
        ["AWND"] = (Quantity.WindMs, Unit.TenthMetrePerSecond),
        ["TSUN"] = (Quantity.SunshineHours, Unit.Minute),
        ["ADPT"] = (Quantity.DewPointC, Unit.TenthCelsius),
        ["RHAV"] = (Quantity.RhMeanPercent, Unit.PerCent),
        ["RHMN"] = (Quantity.RhMinPercent, Unit.PerCent),
        ["RHMX"] = (Quantity.RhMaxPercent, Unit.PerCent),
    };

    /// <summary>The quantity of an element and its unit in tenths; null for elements that no record uses.</summary>
    public static (Quantity Quantity, Unit Tenths)? Of(ReadOnlySpan<char> element) =>
        Known.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(element, out (Quantity, Unit) found) ? found : null;

    /// <summary>Says that the height of the wind is assumed, where there is wind.</summary>
    public static void SettleWind(ReadingJob job)
    {
        if (job.Days.Has(Quantity.WindMs) && job.Options.WindHeightM is null)
        {
            job.WindHeightM = WindHeightM;
            job.IsWindHeightAssumed = true;
            job.Assumed($"GHCN-Daily does not say how high the wind is measured: {WindHeightM} m taken, as at airports.");
        }
    }

    /// <summary>The place that a row gives in its fields of latitude, longitude and elevation; null where it gives none.</summary>
    public static Place? PlaceOf(DelimitedText row, int[] geo)
    {
        if (geo[0] < 0 || geo[1] < 0 || !Numbers.TryRead(row[geo[0]], out double latitude)
            || !Numbers.TryRead(row[geo[1]], out double longitude)
            || Math.Abs(latitude) > 90 || Math.Abs(longitude) > 180)
        {
            return null;
        }

        // -999.9 stands for an unknown elevation.
        double elevation = geo[2] >= 0 && Numbers.TryRead(row[geo[2]], out double metres) && metres > -999 ? metres : double.NaN;
        return new Place(latitude, longitude, elevation);
    }

    /// <summary>Says how many values were left out for a failed quality check.</summary>
    public static void ReportFlagged(ReadingJob job, int flagged)
    {
        if (flagged > 0)
        {
            job.Found($"{flagged} values left out: they failed one of the agency's quality checks.");
        }
    }
}
