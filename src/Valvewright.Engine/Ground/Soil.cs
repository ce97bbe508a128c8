namespace Valvewright.Engine.Ground;

/// <summary>The soil of a zone, as numbers.</summary>
/// <param name="Texture">The texture class, one of the seven of the intake table or the user's own words.</param>
/// <param name="AvailableWaterMmPerM">Water held between field capacity and wilting point, mm per m of depth.</param>
/// <param name="IntakeMmPerHour">Steady rate at which level, bare-wetted ground takes water in.</param>
/// <param name="SurfaceStorageMm">Water that may stand on the surface at this slope before it runs off (ASA).</param>
/// <param name="FieldCapacity">Volumetric share at field capacity, NaN where not known.</param>
/// <param name="WiltingPoint">Volumetric share at wilting point, NaN where not known.</param>
public sealed record Soil(
    string Texture,
    double AvailableWaterMmPerM,
    double IntakeMmPerHour,
    double SurfaceStorageMm,
    double FieldCapacity = double.NaN,
    double WiltingPoint = double.NaN);
