using Valvewright.Engine.Survey;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Power;

/// <summary>The parameters of NASA POWER that a record can use. Their units depend on the community asked for and are read, not
/// known.</summary>
internal static class PowerParameters
{
    public const string Source = "NASA POWER: obtained from the NASA Langley Research Center POWER Project funded through the NASA Earth " +
        "Science/Applied Science Program";

    /// <summary>Fill value of every answer seen (and stated in each header).</summary>
    public const double FillValue = -999;

    /// <summary>Parameters that are radiation, for judging a table that lost its header.</summary>
    public static readonly string[] Radiation = ["ALLSKY_SFC_SW_DWN", "TOA_SW_DWN", "CLRSKY_SFC_SW_DWN"];

    private static readonly (string Name, Quantity Quantity, double? WindHeightM)[] Known =
    [
        ("T2M_MAX", Quantity.TmaxC, null),
        ("T2M_MIN", Quantity.TminC, null),
        ("T2MDEW", Quantity.DewPointC, null),
        ("RH2M", Quantity.RhMeanPercent, null),
        ("PRECTOTCORR", Quantity.RainMm, null),
        ("PRECTOT", Quantity.RainMm, null),
        ("ALLSKY_SFC_SW_DWN", Quantity.RadiationMjM2, null),
        ("WS2M", Quantity.WindMs, 2),
        ("WS10M", Quantity.WindMs, 10),
    ];

    /// <summary>The parameters to use out of those present: for each quantity the first of the list above.</summary>
    public static List<(string Name, Quantity Quantity, double? WindHeightM)> Use(IEnumerable<string> present)
    {
        HashSet<string> names = [.. present];
        HashSet<Quantity> served = [];
        return [.. Known.Where(known => names.Contains(known.Name) && served.Add(known.Quantity))];
    }

    /// <summary>Unit that all communities share, so that a table without a header can be read; null where they differ.</summary>
    public static Unit? UsualUnit(Quantity quantity) => Quantities.DimensionOf(quantity) switch
    {
        Dimension.Temperature => Unit.Celsius,
        Dimension.WaterDepth => Unit.Millimetre,
        Dimension.Percent => Unit.PerCent,
        Dimension.Speed => Unit.MetrePerSecond,
        _ => null,
    };

    /// <summary>Says what the place of a grid point is worth.</summary>
    public static void SettlePlace(ReadingJob job, Place place)
    {
        job.Place = place;
        job.Station = FormattableString.Invariant($"NASA POWER {place.LatitudeDeg:0.###}, {place.LongitudeDeg:0.###}");
        if (job.Options.Place is null)
        {
            job.Assumed(
                $"Elevation {place.ElevationM:0} m is the mean of a grid cell some 50 km wide; give the site's own where it differs.");
        }
    }
}
