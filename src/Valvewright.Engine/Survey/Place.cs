namespace Valvewright.Engine.Survey;

/// <summary>A place on the earth.</summary>
/// <param name="LatitudeDeg">Degrees north of the equator, -90 to 90; south is negative.</param>
/// <param name="LongitudeDeg">Degrees east of Greenwich, -180 to 180; west is negative. NaN where a record does not say.</param>
/// <param name="ElevationM">Metres above sea level.</param>
public sealed record Place(double LatitudeDeg, double LongitudeDeg, double ElevationM);
