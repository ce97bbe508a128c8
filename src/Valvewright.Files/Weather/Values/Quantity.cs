namespace Valvewright.Files.Weather.Values;

/// <summary>The daily values that a weather record keeps; the number is the value's slot in a <see cref="DayTable"/>.</summary>
internal enum Quantity
{
    TmaxC,
    TminC,
    RainMm,
    RhMaxPercent,
    RhMinPercent,
    RhMeanPercent,
    VapourPressureKpa,
    DewPointC,
    RadiationMjM2,
    SunshineHours,
    WindMs,
    PublishedEtoMm,
}

/// <summary>What a quantity is made of: decides which units it can have.</summary>
internal enum Dimension
{
    Temperature,
    WaterDepth,
    Percent,
    Pressure,
    Radiation,
    Duration,
    Speed,
}

internal static class Quantities
{
    public const int Count = 12;

    public static Dimension DimensionOf(Quantity quantity) => quantity switch
    {
        Quantity.TmaxC or Quantity.TminC or Quantity.DewPointC => Dimension.Temperature,
        Quantity.RainMm or Quantity.PublishedEtoMm => Dimension.WaterDepth,
        Quantity.RhMaxPercent or Quantity.RhMinPercent or Quantity.RhMeanPercent => Dimension.Percent,
        Quantity.VapourPressureKpa => Dimension.Pressure,
        Quantity.RadiationMjM2 => Dimension.Radiation,
        Quantity.SunshineHours => Dimension.Duration,
        _ => Dimension.Speed,
    };

    /// <summary>The quantity in plain words.</summary>
    public static string Title(Quantity quantity) => quantity switch
    {
        Quantity.TmaxC => "highest temperature",
        Quantity.TminC => "lowest temperature",
        Quantity.RainMm => "rain",
        Quantity.RhMaxPercent => "highest relative humidity",
        Quantity.RhMinPercent => "lowest relative humidity",
        Quantity.RhMeanPercent => "mean relative humidity",
        Quantity.VapourPressureKpa => "vapor pressure",
        Quantity.DewPointC => "dew point",
        Quantity.RadiationMjM2 => "solar radiation",
        Quantity.SunshineHours => "sunshine",
        Quantity.WindMs => "wind speed",
        _ => "published ETo",
    };
}
