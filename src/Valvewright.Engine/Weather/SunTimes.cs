using NodaTime;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Weather;

/// <summary>Whether the sun rises and sets on a day.</summary>
public enum SunCourse
{
    /// <summary>It does both.</summary>
    RisesAndSets,

    /// <summary>It stays up all day.</summary>
    PolarDay,

    /// <summary>It stays down all day.</summary>
    PolarNight,
}

/// <summary>
/// When the sun comes up and goes down at a place: the upper rim on a level horizon, with ordinary refraction.
/// </summary>
/// <remarks>
/// From the low-precision formulas for the sun's coordinates in the Astronomical Almanac (section C; good to 0.01 degrees and 0.1 minute of
/// the equation of time from 1950 to 2050). Between the polar circles good to about a minute; near them the sun grazes the horizon, and
/// weather moves sunrise by more than that. FAO-56's own declination (<see cref="SolarGeometry"/>) knows no leap years and is minutes off.
/// </remarks>
/// <param name="Course">Whether there is a sunrise at all.</param>
/// <param name="Noon">When the sun stands highest.</param>
/// <param name="Sunrise">Sunrise; the same as noon in the polar night, twelve hours before it in the polar day.</param>
/// <param name="Sunset">Sunset; the same as noon in the polar night, twelve hours after it in the polar day.</param>
public readonly record struct SunTimes(SunCourse Course, Instant Noon, Instant Sunrise, Instant Sunset)
{
    // The Almanac counts days from noon of this date, universal time.
    private static readonly LocalDate Epoch = new(2000, 1, 1);

    // Half the sun's disc (16') and the refraction at the horizon (34'), as the Almanac takes them, degrees.
    private const double DegreesBelowHorizon = 50.0 / 60;
    private const double MinutesPerDegree = 4;
    private const double MinutesPerDay = 1440;

    /// <summary>The day's times at a place with a known longitude.</summary>
    /// <param name="place">Where; the longitude must be known.</param>
    /// <param name="date">The date by the place's own sun.</param>
    /// <exception cref="ArgumentException">The longitude is not known.</exception>
    public static SunTimes Of(Place place, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (double.IsNaN(place.LongitudeDeg))
        {
            throw new ArgumentException("Sunrise needs a longitude, and the place has none.", nameof(place));
        }

        Sun midday = SunAt(date, 0.5 - place.LongitudeDeg / 360);
        double noon = NoonMinutes(midday, place.LongitudeDeg);
        (SunCourse course, double half) = HalfDay(place.LatitudeDeg, midday);
        double rise = noon - half;
        double set = noon + half;

        // The sun moves on between rise and set: each is found once more with the sun of its own moment.
        Sun early = SunAt(date, rise / MinutesPerDay);
        Sun late = SunAt(date, set / MinutesPerDay);
        if (course == SunCourse.RisesAndSets
            && HalfDay(place.LatitudeDeg, early) is (SunCourse.RisesAndSets, double morning)
            && HalfDay(place.LatitudeDeg, late) is (SunCourse.RisesAndSets, double evening))
        {
            rise = NoonMinutes(early, place.LongitudeDeg) - morning;
            set = NoonMinutes(late, place.LongitudeDeg) + evening;
        }

        return new(course, At(date, noon), At(date, rise), At(date, set));
    }

    private readonly record struct Sun(double DeclinationRad, double EquationOfTimeMinutes);

    private static double NoonMinutes(Sun sun, double longitudeDeg) =>
        MinutesPerDay / 2 - MinutesPerDegree * longitudeDeg - sun.EquationOfTimeMinutes;

    /// <summary>Minutes from noon to sunset.</summary>
    private static (SunCourse Course, double Minutes) HalfDay(double latitudeDeg, Sun sun)
    {
        double latitude = SolarGeometry.Radians(latitudeDeg);
        double cosine = -Math.Sin(SolarGeometry.Radians(DegreesBelowHorizon)) / (Math.Cos(latitude) * Math.Cos(sun.DeclinationRad))
            - Math.Tan(latitude) * Math.Tan(sun.DeclinationRad);
        return cosine switch
        {
            > 1 => (SunCourse.PolarNight, 0),
            < -1 => (SunCourse.PolarDay, MinutesPerDay / 2),
            _ => (SunCourse.RisesAndSets, MinutesPerDegree * Degrees(Math.Acos(cosine))),
        };
    }

    private static Sun SunAt(LocalDate date, double partOfDayUtc)
    {
        double days = Period.DaysBetween(Epoch, date) + partOfDayUtc - 0.5;
        double meanLongitude = 280.460 + 0.9856474 * days;
        double anomaly = SolarGeometry.Radians(357.528 + 0.9856003 * days);
        double longitude = SolarGeometry.Radians(meanLongitude + 1.915 * Math.Sin(anomaly) + 0.020 * Math.Sin(2 * anomaly));
        double obliquity = SolarGeometry.Radians(23.439 - 0.0000004 * days);
        double rightAscension = Degrees(Math.Atan2(Math.Cos(obliquity) * Math.Sin(longitude), Math.Cos(longitude)));
        double lead = Math.IEEERemainder(meanLongitude - rightAscension, 360);
        return new(Math.Asin(Math.Sin(obliquity) * Math.Sin(longitude)), MinutesPerDegree * lead);
    }

    private static double Degrees(double radians) => radians * (180 / Math.PI);

    private static Instant At(LocalDate date, double utcMinutes) =>
        date.AtMidnight().InUtc().ToInstant() + Duration.FromSeconds((long)Math.Round(utcMinutes * 60));
}
