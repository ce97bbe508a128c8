namespace Valvewright.Engine.Survey;

/// <summary>A place on the earth.</summary>
/// <param name="LatitudeDeg">Degrees north of the equator, -90 to 90; south is negative.</param>
/// <param name="LongitudeDeg">Degrees east of Greenwich, -180 to 180; west is negative. NaN where a record does not say.</param>
/// <param name="ElevationM">Metres above sea level.</param>
public sealed record Place(double LatitudeDeg, double LongitudeDeg, double ElevationM)
{
    private const double EarthKm = 6371;

    /// <summary>Distance to another place over the ground, km; NaN where a longitude is not known.</summary>
    public double KmTo(Place other)
    {
        ArgumentNullException.ThrowIfNull(other);
        double here = Radians(LatitudeDeg), there = Radians(other.LatitudeDeg);
        double cosine = (Math.Sin(here) * Math.Sin(there)) + (
            Math.Cos(here) * Math.Cos(there) * Math.Cos(Radians(LongitudeDeg - other.LongitudeDeg)));
        return EarthKm * Math.Acos(Math.Clamp(cosine, -1, 1));
    }

    private static double Radians(double degrees) => degrees * (Math.PI / 180);
}
