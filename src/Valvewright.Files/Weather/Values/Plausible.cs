namespace Valvewright.Files.Weather.Values;

/// <summary>Between which bounds a daily value can be weather at all; beyond them it is a fill value, a slip or another unit.</summary>
internal static class Plausible
{
    /// <summary>Highest air temperature measured on earth, Death Valley 1913 (WMO archive of weather extremes), degrees C.</summary>
    public const double HottestAirC = 56.7;

    /// <summary>
    /// Least and most. Air temperature: WMO extremes -89.2 and 56.7 degrees C, with a margin. Rain: 1825 mm in 24 h, Foc-Foc,
    /// La Reunion 1966 (WMO). Radiation: the most that reaches the top of the air in a day is below 50 MJ/m2 (FAO-56 table 2.6).
    /// Vapour pressure and dew point: saturation at 43 degrees C. Wind, published ETo: common practice. Relative humidity sensors
    /// read a few percent high.
    /// </summary>
    public static (double Least, double Most) Bounds(Quantity quantity) => quantity switch
    {
        Quantity.TmaxC or Quantity.TminC => (-95, 60),
        Quantity.DewPointC => (-95, 43),
        Quantity.RainMm => (0, 1900),
        Quantity.RhMaxPercent or Quantity.RhMinPercent or Quantity.RhMeanPercent => (0, 105),
        Quantity.VapourPressureKpa => (0, 8.7),
        Quantity.RadiationMjM2 => (0, 50),
        Quantity.SunshineHours => (0, 24),
        Quantity.WindMs => (0, 75),
        _ => (-1, 30),
    };

    /// <summary>Whether the value can be weather; never for NaN.</summary>
    public static bool Holds(Quantity quantity, double value)
    {
        (double least, double most) = Bounds(quantity);
        return value >= least && value <= most;
    }
}
