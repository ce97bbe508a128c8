using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>How a day's evapotranspiration falls on its 24 hours: as the sun's radiation above the air does.</summary>
/// <remarks>FAO-56 eq. 28 to 33, each hour cut at sunrise and sunset. Night hours get nothing.</remarks>
public static class DaylightSpread
{
    /// <summary>Steps of a day.</summary>
    public const int Hours = 24;

    /// <summary>The share of each clock hour, 0:00-1:00 first; together 1.</summary>
    /// <param name="place">Where; a longitude that is not known is taken to be that of the clock's meridian.</param>
    /// <param name="date">The day.</param>
    /// <param name="clockHours">What the clock is ahead of universal time, h, without daylight saving.</param>
    /// <param name="shares">24 values to fill. Where the sun does not rise at all, every hour gets the same.</param>
    public static void Fill(Place place, LocalDate date, double clockHours, Span<double> shares)
    {
        ArgumentNullException.ThrowIfNull(place);
        int dayOfYear = date.DayOfYear;
        double latitude = SolarGeometry.Radians(place.LatitudeDeg);
        double declination = SolarGeometry.Declination(dayOfYear);
        double sunset = SolarGeometry.SunsetHourAngle(latitude, declination);
        double level = Math.Sin(latitude) * Math.Sin(declination), swing = Math.Cos(latitude) * Math.Cos(declination);
        double day = 2 * (sunset * level + swing * Math.Sin(sunset));
        if (day <= 1e-9)
        {
            shares.Fill(1.0 / Hours);
            return;
        }

        double west = double.IsNaN(place.LongitudeDeg) ? 0 : clockHours - place.LongitudeDeg / 15;
        double ahead = SeasonalCorrectionHours(dayOfYear) - west;
        for (int hour = 0; hour < Hours; hour++)
        {
            double from = Math.PI / 12 * (hour + ahead - 12), to = from + Math.PI / 12;
            shares[hour] = 0;
            for (int turn = -1; turn <= 1; turn++)
            {
                // A clock far from its meridian sees part of a neighbouring day's sun within the same 24 hours.
                double rises = Math.Clamp(from + turn * 2 * Math.PI, -sunset, sunset),
                    sets = Math.Clamp(to + turn * 2 * Math.PI, -sunset, sunset);
                shares[hour] += ((sets - rises) * level + swing * (Math.Sin(sets) - Math.Sin(rises))) / day;
            }
        }
    }

    /// <summary>Seasonal correction for solar time (FAO-56 eq. 32 and 33), h.</summary>
    internal static double SeasonalCorrectionHours(int dayOfYear)
    {
        double b = 2 * Math.PI * (dayOfYear - 81) / 364;
        return 0.1645 * Math.Sin(2 * b) - 0.1255 * Math.Cos(b) - 0.025 * Math.Sin(b);
    }
}
