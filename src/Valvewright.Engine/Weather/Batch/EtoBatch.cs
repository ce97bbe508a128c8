using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Weather.Batch;

/// <summary>
/// Penman-Monteith for many station-days at a time: the same formulas as <see cref="ReferenceEvapotranspiration"/>, eight days to a step.
/// </summary>
/// <remarks>
/// A day's result depends on that day alone, never on its place in the batch, and has the same bits on every machine. It agrees with the
/// day-by-day computation within 1e-9 mm. Where the formulas allow, terms are regrouped so that a step has six
/// divisions and three roots: these, not the polynomials, are what a processor waits for.
/// </remarks>
public static class EtoBatch
{
    /// <summary>Denominator offset of the saturation curve, K (FAO-56 eq. 11).</summary>
    internal const double SaturationOffset = 237.3;

    // 0.6108 exp(17.27 T / (T + 237.3)) = 2 ^ (SaturationPower - SaturationFall / (T + 237.3))
    private const double SaturationPower = 24.2041153233998;
    private const double SaturationFall = 5912.410978414964;

    private const double HottestC = 100;
    private const double LowestPlaceM = -500;
    private const double HighestPlaceM = 9000;

    /// <summary>Writes the reference ET, mm, of every station-day; NaN where an input is NaN or outside the range its column
    /// names.</summary>
    /// <param name="days">The inputs.</param>
    /// <param name="options">Floor of Rs/Rso, albedo and least wind are taken from here; the clear sky is the simple form.</param>
    /// <param name="etoMm">As long as the columns.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="NotSupportedException">The options ask for the full clear-sky form.</exception>
    public static void PenmanMonteith(in StationDays days, EtoOptions options, Span<double> etoMm)
    {
        ArgumentNullException.ThrowIfNull(options);
        days.AssertEvenLengths(etoMm.Length);
        if (options.ClearSky != ClearSkyForm.Simple)
        {
            throw new NotSupportedException("The batch knows the simple clear-sky form only.");
        }

        switch (days.Vapour)
        {
            case VapourSource.VapourPressure: All<FromVapourPressure>(days, options, etoMm); break;
            case VapourSource.DewPoint: All<FromDewPoint>(days, options, etoMm); break;
            case VapourSource.HumidityRange: All<FromHumidityRange>(days, options, etoMm); break;
            case VapourSource.HighestHumidity: All<FromHighestHumidity>(days, options, etoMm); break;
            default: All<FromMeanHumidity>(days, options, etoMm); break;
        }
    }

    /// <summary>Saturation vapour pressure, kPa, from 1 / (T + 237.3).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector512<double> Saturation(Vector512<double> inverse) =>
        Lanes.Exp2(Lanes.MulAdd(inverse, Lanes.All(-SaturationFall), Lanes.All(SaturationPower)));

    private static void All<TVapour>(in StationDays days, EtoOptions options, Span<double> etoMm)
        where TVapour : struct, IVapourReading
    {
        ReadOnlySpan<double> lowest = days.Vapour == VapourSource.HumidityRange ? days.LowestHumidity : days.Humidity;
        Settings settings = new(options, days.WindFactor);
        int whole = etoMm.Length - etoMm.Length % Lanes.Count;
        ref double latitude = ref MemoryMarshal.GetReference(days.LatitudeDeg);
        ref double elevation = ref MemoryMarshal.GetReference(days.ElevationM);
        ref double dayOfYear = ref MemoryMarshal.GetReference(days.DayOfYear);
        ref double tmax = ref MemoryMarshal.GetReference(days.TmaxC);
        ref double tmin = ref MemoryMarshal.GetReference(days.TminC);
        ref double first = ref MemoryMarshal.GetReference(days.Humidity);
        ref double second = ref MemoryMarshal.GetReference(lowest);
        ref double radiation = ref MemoryMarshal.GetReference(days.RadiationMjM2);
        ref double wind = ref MemoryMarshal.GetReference(days.WindMs);
        ref double result = ref MemoryMarshal.GetReference(etoMm);
        for (nuint i = 0; i < (nuint)whole; i += (nuint)Lanes.Count)
        {
            Eight<TVapour>(
                Vector512.LoadUnsafe(ref latitude, i), Vector512.LoadUnsafe(ref elevation, i), Vector512.LoadUnsafe(ref dayOfYear, i),
                Vector512.LoadUnsafe(ref tmax, i), Vector512.LoadUnsafe(ref tmin, i), Vector512.LoadUnsafe(ref first, i),
                    Vector512.LoadUnsafe(ref second, i),
                Vector512.LoadUnsafe(ref radiation, i), Vector512.LoadUnsafe(ref wind, i), settings).StoreUnsafe(ref result, i);
        }

        if (whole < etoMm.Length)
        {
            Rest(days, lowest, whole, settings).Slice(0, etoMm.Length - whole).CopyTo(etoMm[whole..]);
        }

        // The days beyond the last whole step, in a step of their own whose other lanes are idle.
        static Span<double> Rest(in StationDays days, ReadOnlySpan<double> lowest, int from, Settings settings)
        {
            double[] eto = new double[Lanes.Count];
            Eight<TVapour>(
                Padded(days.LatitudeDeg, from), Padded(days.ElevationM, from), Padded(days.DayOfYear, from), Padded(days.TmaxC, from),
                    Padded(days.TminC, from),
                Padded(days.Humidity, from), Padded(lowest, from), Padded(days.RadiationMjM2, from), Padded(days.WindMs, from),
                    settings).CopyTo(eto);
            return eto;
        }
    }

    private static Vector512<double> Padded(ReadOnlySpan<double> column, int from)
    {
        Span<double> lanes = stackalloc double[Lanes.Count];
        lanes.Clear();
        column[from..].CopyTo(lanes);
        return Vector512.Create<double>(lanes);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Eight<TVapour>(
        Vector512<double> latitude, Vector512<double> elevation, Vector512<double> dayOfYear, Vector512<double> tmax,
            Vector512<double> tmin,
        Vector512<double> humidity, Vector512<double> lowestHumidity, Vector512<double> radiation, Vector512<double> wind,
            Settings settings)
        where TVapour : struct, IVapourReading
    {
        // One division serves three reciprocals.
        Vector512<double> mean = (tmax + tmin) * Lanes.All(0.5);
        Vector512<double> aboveMax = tmax + Lanes.All(SaturationOffset);
        Vector512<double> aboveMin = tmin + Lanes.All(SaturationOffset);
        Vector512<double> aboveMean = mean + Lanes.All(SaturationOffset);
        Vector512<double> product = aboveMax * aboveMin;
        Vector512<double> inverse = Vector512<double>.One / (product * aboveMean);
        Vector512<double> inverseOfProduct = inverse * aboveMean;
        Vector512<double> inverseMean = inverse * product;
        Vector512<double> atMax = Saturation(inverseOfProduct * aboveMin);
        Vector512<double> atMin = Saturation(inverseOfProduct * aboveMax);
        Vector512<double> slope = Lanes.All(4098) * Saturation(inverseMean) * (inverseMean * inverseMean);
        Vector512<double> vapour = TVapour.Kpa(humidity, lowestHumidity, atMax, atMin);
        Vector512<double> deficit = Lanes.AtLeast(Lanes.MulAdd(atMax + atMin, Lanes.All(0.5), -vapour), Vector512<double>.Zero);

        Vector512<double> clearSky = Extraterrestrial(latitude, dayOfYear) * Lanes.MulAdd(elevation, Lanes.All(2e-5), Lanes.All(0.75));
        Vector512<double> net = Lanes
            .MulAdd(radiation, Lanes.All(1 - settings.Albedo), -Longwave(tmax, tmin, vapour, radiation, clearSky, settings.Floor));
        Vector512<double> gamma = Lanes.All(0.665e-3 * 101.3) * Lanes.PressurePower(elevation * Lanes.All(0.0065 / 293));
        Vector512<double> wind2 = Lanes.AtLeast(wind * Lanes.All(settings.WindFactor), Lanes.All(settings.LeastWind));

        // Numerator and denominator are both multiplied with Tmean + 273, which spares a division.
        Vector512<double> kelvin = mean + Lanes.All(273);
        Vector512<double> above = Lanes.MulAdd(
            Lanes.All(Psychrometrics.MmPerMj) * slope * net, kelvin, gamma * Lanes.All(ReferenceEvapotranspiration.Cn) * wind2 * deficit);
        Vector512<double> below = kelvin * Lanes
            .MulAdd(gamma, Lanes.MulAdd(wind2, Lanes.All(ReferenceEvapotranspiration.Cd), Vector512<double>.One), slope);
        Vector512<double> eto = Lanes.AtLeast(above / below, Vector512<double>.Zero);
        return Vector512.ConditionalSelect(IsWithinRange(latitude, elevation, tmax, tmin), eto, Lanes.All(double.NaN));
    }

    /// <summary>Net long-wave radiation, MJ/m2 (FAO-56 eq. 39); where no sun could shine the sky counts as clear.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Longwave(
        Vector512<double> tmax, Vector512<double> tmin, Vector512<double> vapour, Vector512<double> radiation,
            Vector512<double> clearSky, double floor)
    {
        Vector512<double> ratio = Lanes.AtMost(Lanes.AtLeast(radiation / clearSky, Lanes.All(floor)), Vector512<double>.One);
        Vector512<double> relative = Vector512.ConditionalSelect(
            Vector512.LessThanOrEqual(clearSky, Vector512<double>.Zero), Vector512<double>.One, ratio);
        Vector512<double> kelvinMax = tmax + Lanes.All(Radiation.FreezingK);
        Vector512<double> kelvinMin = tmin + Lanes.All(Radiation.FreezingK);
        Vector512<double> squareMax = kelvinMax * kelvinMax;
        Vector512<double> squareMin = kelvinMin * kelvinMin;
        Vector512<double> blackBody = Lanes.All(Radiation.StefanBoltzmann / 2) * Lanes.MulAdd(squareMax, squareMax, squareMin * squareMin);
        Vector512<double> humidity = Lanes.MulAdd(Vector512.Sqrt(vapour), Lanes.All(-0.14), Lanes.All(0.34));
        return blackBody * humidity * Lanes.MulAdd(relative, Lanes.All(1.35), Lanes.All(-0.35));
    }

    /// <summary>Radiation above the air, MJ/m2 (FAO-56 eq. 21 to 25).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Extraterrestrial(Vector512<double> latitude, Vector512<double> dayOfYear)
    {
        (Vector512<double> sinYear, Vector512<double> cosYear) = Lanes.SinCosAnyHalfTurns(dayOfYear * Lanes.All(2.0 / 365));
        Vector512<double> distance = Lanes.MulAdd(cosYear, Lanes.All(0.033), Vector512<double>.One);

        // sin(a - 1.39) = sin a cos 1.39 - cos a sin 1.39
        Vector512<double> declination = Lanes.MulAdd(sinYear, Lanes.All(0.409 * CosPhase), cosYear * Lanes.All(-0.409 * SinPhase));
        (Vector512<double> sinDeclination, Vector512<double> cosDeclination) = Lanes.SinCosDeclination(declination);
        (Vector512<double> sinLatitude, Vector512<double> cosLatitude) = Lanes.SinCosHalfTurns(latitude * Lanes.All(1.0 / 180));
        Vector512<double> high = sinLatitude * sinDeclination;
        Vector512<double> wide = Vector512.Abs(cosLatitude) * cosDeclination;
        Vector512<double> cosSunset = Lanes.AtMost(Lanes.AtLeast(-high / wide, -Vector512<double>.One), Vector512<double>.One);
        Vector512<double> sunset = Lanes.Acos(cosSunset);

        // From the same rounded cosine, so that the errors of angle and sine cancel near the polar day and night.
        Vector512<double> sinSunset = Vector512.Sqrt((Vector512<double>.One - cosSunset) * (Vector512<double>.One + cosSunset));
        Vector512<double> sum = Lanes.AtLeast(Lanes.MulAdd(sunset, high, wide * sinSunset), Vector512<double>.Zero);
        return Lanes.All(24 * 60 / Math.PI * SolarGeometry.SolarConstant) * distance * sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> IsWithinRange(
        Vector512<double> latitude, Vector512<double> elevation, Vector512<double> tmax, Vector512<double> tmin) =>
        Vector512.LessThanOrEqual(Vector512.Abs(latitude), Lanes.All(90))
        & Vector512.GreaterThanOrEqual(elevation, Lanes.All(LowestPlaceM)) & Vector512.LessThanOrEqual(elevation, Lanes.All(HighestPlaceM))
        & Vector512.LessThanOrEqual(Vector512.Abs(tmax), Lanes.All(HottestC)) & Vector512.LessThanOrEqual(
            Vector512.Abs(tmin), Lanes.All(HottestC));

    private const double SinPhase = 0.9837008148112766;
    private const double CosPhase = 0.17981297767299947;

    /// <summary>The stated choices of one call.</summary>
    private readonly struct Settings(EtoOptions options, double windFactor)
    {
        public double Floor { get; } = options.RelativeShortwaveFloor;

        public double Albedo { get; } = options.Albedo;

        public double LeastWind { get; } = options.LeastWindMs;

        public double WindFactor { get; } = windFactor;
    }
}
