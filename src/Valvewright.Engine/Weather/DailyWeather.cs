using NodaTime;

namespace Valvewright.Engine.Weather;

/// <summary>One day of weather as a station reports it; NaN stands for "not measured".</summary>
public readonly record struct DailyWeather(LocalDate Date)
{
    /// <summary>Highest air temperature, degrees C.</summary>
    public double TmaxC { get; init; } = double.NaN;

    /// <summary>Lowest air temperature, degrees C.</summary>
    public double TminC { get; init; } = double.NaN;

    /// <summary>Rain and melted snow, mm.</summary>
    public double RainMm { get; init; } = double.NaN;

    /// <summary>Highest relative humidity, percent.</summary>
    public double RhMaxPercent { get; init; } = double.NaN;

    /// <summary>Lowest relative humidity, percent.</summary>
    public double RhMinPercent { get; init; } = double.NaN;

    /// <summary>Mean relative humidity, percent.</summary>
    public double RhMeanPercent { get; init; } = double.NaN;

    /// <summary>Mean actual vapour pressure, kPa.</summary>
    public double VapourPressureKpa { get; init; } = double.NaN;

    /// <summary>Mean dew point, degrees C.</summary>
    public double DewPointC { get; init; } = double.NaN;

    /// <summary>Solar radiation, MJ/m2 in the day.</summary>
    public double RadiationMjM2 { get; init; } = double.NaN;

    /// <summary>Hours of bright sunshine.</summary>
    public double SunshineHours { get; init; } = double.NaN;

    /// <summary>Mean wind speed at the record's wind height, m/s.</summary>
    public double WindMs { get; init; } = double.NaN;

    /// <summary>Reference ET as the source itself publishes it, mm; used only where it cannot be computed.</summary>
    public double PublishedEtoMm { get; init; } = double.NaN;
}
