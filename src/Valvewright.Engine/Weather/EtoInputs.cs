using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Weather;

/// <summary>All that Penman-Monteith needs of a day, measured or estimated, with every term that the sources print.</summary>
public readonly record struct EtoInputs
{
    /// <summary>Mean temperature: (Tmax + Tmin) / 2, degrees C (FAO-56 eq. 9).</summary>
    public required double MeanC { get; init; }

    /// <summary>Radiation above the air, MJ/m2.</summary>
    public required double ExtraterrestrialMjM2 { get; init; }

    /// <summary>Radiation at the ground, MJ/m2.</summary>
    public required double RadiationMjM2 { get; init; }

    /// <summary>Radiation under a clear sky, MJ/m2.</summary>
    public required double ClearSkyMjM2 { get; init; }

    /// <summary>Net radiation, MJ/m2.</summary>
    public required double NetRadiationMjM2 { get; init; }

    /// <summary>Actual vapour pressure, kPa.</summary>
    public required double VapourKpa { get; init; }

    /// <summary>Saturation less actual vapour pressure, kPa, 0 or more.</summary>
    public required double DeficitKpa { get; init; }

    /// <summary>Wind at 2 m, m/s.</summary>
    public required double Wind2Ms { get; init; }

    /// <summary>Psychrometric constant, kPa/K.</summary>
    public required double PsychrometricConstant { get; init; }

    /// <summary>Where vapour pressure, radiation and wind come from.</summary>
    public required EtoMethod Sources { get; init; }

    /// <summary>Penman-Monteith of these; below 0 on a day of dew.</summary>
    public double PenmanMonteithMm() =>
        ReferenceEvapotranspiration.PenmanMonteith(MeanC, NetRadiationMjM2, DeficitKpa, Wind2Ms, PsychrometricConstant);

    /// <summary>True when neither humidity nor radiation, sunshine or wind is known.</summary>
    public static bool HasOnlyTemperatures(DailyWeather day, EtoOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return double.IsNaN(day.RadiationMjM2) && double.IsNaN(day.SunshineHours) && double.IsNaN(day.WindMs)
            && double.IsNaN(MeasuredVapour(day, options).Kpa);
    }

    /// <summary>Finds the inputs of a day that has both temperatures.</summary>
    public static EtoInputs Of(DailyWeather day, Place place, double windHeightM, EtoOptions options)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(options);
        double pressure = Psychrometrics.PressureKpa(place.ElevationM);
        double extraterrestrial = SolarGeometry.ExtraterrestrialMjM2(place.LatitudeDeg, day.Date.DayOfYear);
        (double vapour, EtoMethod vapourSource) = Vapour(day, options);
        double clearSky = options.ClearSky == ClearSkyForm.Simple
            ? Radiation.ClearSkySimple(extraterrestrial, place.ElevationM)
            : Radiation.ClearSkyFull(extraterrestrial, place.LatitudeDeg, day.Date.DayOfYear, pressure, vapour);
        (double radiation, EtoMethod radiationSource) = Shortwave(day, place, extraterrestrial, clearSky, options);
        (double wind, EtoMethod windSource) = Wind(day, windHeightM, options);

        // No sun, no ratio: the polar night is taken as clear, as its days on either side would be.
        double relative = clearSky <= 0 ? 1 : Math.Clamp(radiation / clearSky, options.RelativeShortwaveFloor, 1);
        return new()
        {
            MeanC = (day.TmaxC + day.TminC) / 2,
            ExtraterrestrialMjM2 = extraterrestrial,
            RadiationMjM2 = radiation,
            ClearSkyMjM2 = clearSky,
            NetRadiationMjM2 = Radiation.NetShortwave(radiation, options.Albedo) - Radiation
                .NetLongwave(day.TmaxC, day.TminC, vapour, relative),
            VapourKpa = vapour,
            DeficitKpa = Math.Max(0, Psychrometrics.MeanSaturationKpa(day.TmaxC, day.TminC) - vapour),
            Wind2Ms = wind,
            PsychrometricConstant = Psychrometrics.PsychrometricConstant(pressure),
            Sources = vapourSource | radiationSource | windSource,
        };
    }

    private static (double Kpa, EtoMethod Source) Vapour(DailyWeather day, EtoOptions options)
    {
        (double kpa, EtoMethod source) = MeasuredVapour(day, options);
        return double.IsNaN(kpa)
            ? (Psychrometrics.SaturationKpa(day.TminC - options.DewPointBelowTminK), EtoMethod.VapourFromTmin)
            : (kpa, source);
    }

    private static (double Kpa, EtoMethod Source) MeasuredVapour(DailyWeather day, EtoOptions options)
    {
        foreach (VapourSource source in options.VapourSources)
        {
            (double kpa, EtoMethod method) = source switch
            {
                VapourSource.VapourPressure => (day.VapourPressureKpa, EtoMethod.VapourMeasured),
                VapourSource.DewPoint => (Psychrometrics.VapourFromDewPointKpa(day.DewPointC), EtoMethod.VapourFromDewPoint),
                VapourSource.HumidityRange =>
                    (Psychrometrics.VapourFromHumidityRangeKpa(day.TmaxC, day.TminC, day.RhMaxPercent, day.RhMinPercent),
                        EtoMethod.VapourFromHumidityRange),
                VapourSource.HighestHumidity =>
                    (Psychrometrics.VapourFromHighestHumidityKpa(day.TminC, day.RhMaxPercent), EtoMethod.VapourFromHighestHumidity),
                _ => (Psychrometrics.VapourFromMeanHumidityKpa(day.TmaxC, day.TminC, day.RhMeanPercent), EtoMethod.VapourFromMeanHumidity),
            };
            if (!double.IsNaN(kpa))
            {
                return (kpa, method);
            }
        }

        return (double.NaN, EtoMethod.None);
    }

    private static (double MjM2, EtoMethod Source) Shortwave(
        DailyWeather day, Place place, double extraterrestrial, double clearSky, EtoOptions options)
    {
        if (!double.IsNaN(day.RadiationMjM2))
        {
            return (day.RadiationMjM2, EtoMethod.RadiationMeasured);
        }

        if (!double.IsNaN(day.SunshineHours))
        {
            double daylight = SolarGeometry.DaylightHours(place.LatitudeDeg, day.Date.DayOfYear);
            double radiation = Radiation.FromSunshine(
                extraterrestrial, day.SunshineHours, daylight, options.AngstromOvercast, options.AngstromSunshine);
            return (radiation, EtoMethod.RadiationFromSunshine);
        }

        return (Radiation.FromTemperatureRange(extraterrestrial, clearSky, day.TmaxC, day.TminC, options.TemperatureRangeFactor),
            EtoMethod.RadiationFromTemperatureRange);
    }

    private static (double Ms, EtoMethod Source) Wind(DailyWeather day, double windHeightM, EtoOptions options)
    {
        double measured = Psychrometrics.WindAt2M(day.WindMs, options.WindHeightM ?? windHeightM);
        return double.IsNaN(measured)
            ? (Math.Max(options.LeastWindMs, options.AssumedWindMs ?? EtoOptions.WorldMeanWindMs), EtoMethod.WindAssumed)
            : (Math.Max(options.LeastWindMs, measured), EtoMethod.WindMeasured);
    }
}
