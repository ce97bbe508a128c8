using Valvewright.Engine.Values;

namespace Valvewright.Engine.Survey;

/// <summary>How clear-sky radiation is found.</summary>
public enum ClearSkyForm
{
    /// <summary>From elevation alone: (0.75 + 2e-5 z) Ra (FAO-56 eq. 37).</summary>
    Simple,

    /// <summary>From the sun's height, pressure and humidity (ASCE-EWRI 2005 appendix D).</summary>
    Full,
}

/// <summary>What actual vapour pressure can be found from.</summary>
public enum VapourSource
{
    /// <summary>Measured mean vapour pressure.</summary>
    VapourPressure,

    /// <summary>Mean dew point (eq. 14).</summary>
    DewPoint,

    /// <summary>Highest and lowest relative humidity (eq. 17).</summary>
    HumidityRange,

    /// <summary>Highest relative humidity alone (eq. 18).</summary>
    HighestHumidity,

    /// <summary>Mean relative humidity (eq. 19).</summary>
    MeanHumidity,
}

/// <summary>Which formula serves a day that has temperatures and nothing else.</summary>
public enum TemperatureOnlyForm
{
    /// <summary>Hargreaves and Samani 1985 (FAO-56 eq. 52).</summary>
    HargreavesSamani,

    /// <summary>Penman-Monteith with radiation from the temperature range, dew point from Tmin and the assumed wind.</summary>
    PenmanMonteith,
}

/// <summary>The choices on which agencies differ, each stated; the defaults are those of ASCE-EWRI 2005 where it says one.</summary>
public sealed record EtoOptions
{
    /// <summary>Mean wind at 2 m of 2000 stations, m/s (FAO-56, chapter 3).</summary>
    public const double WorldMeanWindMs = 2;

    /// <summary>The choices when nothing is said.</summary>
    public static EtoOptions Default { get; } = new();

    /// <summary>
    /// Least Rs/Rso in the long-wave term: 0.3 (ASCE-EWRI 2005, eq. 18) or 0 for no floor (FAO-56 names only the upper limit, 1).
    /// It matters on dark winter days of humid places.
    /// </summary>
    public double RelativeShortwaveFloor { get; init; } = 0.3;

    /// <summary>Form of clear-sky radiation.</summary>
    public ClearSkyForm ClearSky { get; init; } = ClearSkyForm.Simple;

    /// <summary>Where vapour pressure comes from: the first of these that the day has (order of ASCE-EWRI 2005, table 3, for the measured
    /// ones).</summary>
    public ListOf<VapourSource> VapourSources { get; init; } =
        [VapourSource.VapourPressure, VapourSource.DewPoint, VapourSource.HumidityRange, VapourSource.HighestHumidity,
            VapourSource.MeanHumidity];

    /// <summary>Height of the wind measurement, m; null takes the record's.</summary>
    public double? WindHeightM { get; init; }

    /// <summary>Part of radiation that the reference grass reflects (FAO-56, with eq. 38).</summary>
    public double Albedo { get; init; } = 0.23;

    /// <summary>Angstrom's a: part of Ra that reaches the ground under an overcast sky (eq. 35).</summary>
    public double AngstromOvercast { get; init; } = 0.25;

    /// <summary>Angstrom's b: what full sunshine adds (eq. 35).</summary>
    public double AngstromSunshine { get; init; } = 0.50;

    /// <summary>Factor of eq. 50 for radiation from the temperature range: 0.16 inland, 0.19 on a coast (FAO-56).</summary>
    public double TemperatureRangeFactor { get; init; } = 0.16;

    /// <summary>How far the dew point is taken to lie below Tmin when no humidity is measured, K: 0 (eq. 48), 2 to 3 in a dry climate
    /// (annex 6).</summary>
    public double DewPointBelowTminK { get; init; }

    /// <summary>Wind at 2 m when none is measured, m/s; null takes the mean of a record that has a year of wind, else
    /// <see cref="WorldMeanWindMs"/>.</summary>
    public double? AssumedWindMs { get; init; }

    /// <summary>Least wind at 2 m that the formula is given, m/s; 0.5 is FAO-56's advice for still places, 0 leaves it as
    /// measured.</summary>
    public double LeastWindMs { get; init; }

    /// <summary>What serves when only temperatures are known.</summary>
    public TemperatureOnlyForm TemperatureOnly { get; init; } = TemperatureOnlyForm.HargreavesSamani;
}
