using Valvewright.Engine.Values;

namespace Valvewright.Engine.Balance;

/// <summary>The six zones of the SWAT climatological controller test. All figures from memory of the protocol: not read in a copy of it.</summary>
/// <remarks>Coefficients of turf by month: Meyer and others 1985, University of California (cool and warm season). The protocol's allowance for shade is not applied.</remarks>
public static class SwatZones
{
    private const double MmPerIn = 25.4;
    private const double M2PerSqFt = 0.09290304;

    private static ListOf<double> Cool => [.61, .64, .75, 1.04, .95, .88, .94, .86, .74, .75, .69, .60];

    private static ListOf<double> Warm => [.61, .54, .76, .72, .79, .68, .71, .71, .62, .54, .58, .55];

    /// <summary>Zones 1 to 6.</summary>
    public static ListOf<SwatZone> All { get; } =
    [
        new(1, "loam", 6, "75 % shade", .85 * MmPerIn, "fescue", Cool, 1.60 * MmPerIn, 0.55, 1000 * M2PerSqFt),
        new(2, "silty clay", 10, "full sun", .55 * MmPerIn, "bermuda", Warm, 1.60 * MmPerIn, 0.60, 1200 * M2PerSqFt),
        new(3, "loamy sand", 8, "full sun", .90 * MmPerIn, "ground cover", Same(.55), 1.40 * MmPerIn, 0.70, 800 * M2PerSqFt),
        new(4, "sandy loam", 12, "50 % shade", 2.00 * MmPerIn, "woody shrubs", Same(.40), 1.40 * MmPerIn, 0.75, 500 * M2PerSqFt),
        new(5, "clay loam", 2, "full sun", 2.25 * MmPerIn, "trees and ground cover", Same(.61), .20 * MmPerIn, 0.80, 650 * M2PerSqFt),
        new(6, "clay", 20, "full sun", .55 * MmPerIn, "bermuda", Warm, .35 * MmPerIn, 0.65, 1600 * M2PerSqFt),
    ];

    private static ListOf<double> Same(double coefficient) => Enumerable.Repeat(coefficient, 12).ToListOf();
}

/// <summary>A zone of the test.</summary>
/// <param name="Number">1 to 6.</param>
/// <param name="Texture">Soil texture.</param>
/// <param name="SlopePercent">Slope.</param>
/// <param name="Exposure">Sun or shade.</param>
/// <param name="WorkingStorageMm">Root-zone working storage.</param>
/// <param name="Plants">What grows.</param>
/// <param name="CoefficientByMonth">Crop coefficient, January to December.</param>
/// <param name="PrecipitationRateMmPerHour">Gross rate.</param>
/// <param name="Efficiency">Part of the gross depth that counts as net.</param>
/// <param name="AreaM2">Area.</param>
public sealed record SwatZone(
    int Number,
    string Texture,
    double SlopePercent,
    string Exposure,
    double WorkingStorageMm,
    string Plants,
    ListOf<double> CoefficientByMonth,
    double PrecipitationRateMmPerHour,
    double Efficiency,
    double AreaM2);
