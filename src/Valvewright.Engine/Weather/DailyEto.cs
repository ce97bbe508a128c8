using NodaTime;

namespace Valvewright.Engine.Weather;

/// <summary>How a day's reference ET came about: one formula, and for each input whether it was measured or how it was estimated.</summary>
[Flags]
public enum EtoMethod
{
    /// <summary>Not found.</summary>
    None = 0,

    /// <summary>Standardized Penman-Monteith, short reference.</summary>
    PenmanMonteith = 1,

    /// <summary>Hargreaves and Samani 1985, from temperatures alone.</summary>
    HargreavesSamani = 1 << 1,

    /// <summary>As the source itself publishes it.</summary>
    Published = 1 << 2,

    /// <summary>On a line between the days before and after.</summary>
    Interpolated = 1 << 3,

    /// <summary>Mean of that time of year over the record.</summary>
    TimeOfYearMean = 1 << 4,

    /// <summary>Vapour pressure was measured.</summary>
    VapourMeasured = 1 << 5,

    /// <summary>Vapour pressure from the dew point.</summary>
    VapourFromDewPoint = 1 << 6,

    /// <summary>Vapour pressure from highest and lowest relative humidity.</summary>
    VapourFromHumidityRange = 1 << 7,

    /// <summary>Vapour pressure from the highest relative humidity.</summary>
    VapourFromHighestHumidity = 1 << 8,

    /// <summary>Vapour pressure from mean relative humidity.</summary>
    VapourFromMeanHumidity = 1 << 9,

    /// <summary>Vapour pressure estimated: dew point taken near Tmin.</summary>
    VapourFromTmin = 1 << 10,

    /// <summary>Radiation was measured.</summary>
    RadiationMeasured = 1 << 11,

    /// <summary>Radiation from hours of sunshine.</summary>
    RadiationFromSunshine = 1 << 12,

    /// <summary>Radiation estimated from the range of temperature.</summary>
    RadiationFromTemperatureRange = 1 << 13,

    /// <summary>Wind was measured.</summary>
    WindMeasured = 1 << 14,

    /// <summary>Wind was assumed.</summary>
    WindAssumed = 1 << 15,

    /// <summary>A temperature of the day was filled before the formula was used.</summary>
    TemperatureFilled = 1 << 16,
}

/// <summary>One day's reference ET and how it came about.</summary>
/// <param name="Date">The day.</param>
/// <param name="EtoMm">Reference ET of short grass, mm; NaN only where it could not be found.</param>
/// <param name="Method">The formula and its inputs.</param>
public readonly record struct DailyEto(LocalDate Date, double EtoMm, EtoMethod Method);
