using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Balance;

/// <summary>The six zones of the SWAT climatological controller test. All figures not checked against the printed source of the protocol:
/// not read in a copy of it.</summary>
/// <remarks>Coefficients of turf by month: <see cref="LandscapeCoefficient.TurfByMonth"/>. The protocol's allowance for shade is not
/// applied.</remarks>
public static class SwatZones
{
    private const double M2PerSqFt = 0.09290304;

    private static ListOf<double> Cool => LandscapeCoefficient.TurfByMonth(TurfSeason.Cool);

    private static ListOf<double> Warm => LandscapeCoefficient.TurfByMonth(TurfSeason.Warm);

    /// <summary>Zones 1 to 6.</summary>
    public static ListOf<SwatZone> All { get; } =
    [
        new(1, "loam", 6, "75 % shade", .85 * UsUnits.MmPerInch, "fescue", Cool, 1.60 * UsUnits.MmPerInch, 0.55, 1000 * M2PerSqFt),
        new(2, "silty clay", 10, "full sun", .55 * UsUnits.MmPerInch, "bermuda", Warm, 1.60 * UsUnits.MmPerInch, 0.60, 1200 * M2PerSqFt),
        new(3, "loamy sand", 8, "full sun", .90 * UsUnits.MmPerInch, "ground cover", LandscapeCoefficient.AllYear(.55),
            1.40 * UsUnits.MmPerInch, 0.70, 800 * M2PerSqFt),
        new(4, "sandy loam", 12, "50 % shade", 2.00 * UsUnits.MmPerInch, "woody shrubs", LandscapeCoefficient.AllYear(.40),
            1.40 * UsUnits.MmPerInch, 0.75, 500 * M2PerSqFt),
        new(5, "clay loam", 2, "full sun", 2.25 * UsUnits.MmPerInch, "trees and ground cover", LandscapeCoefficient.AllYear(.61),
            .20 * UsUnits.MmPerInch, 0.80, 650 * M2PerSqFt),
        new(6, "clay", 20, "full sun", .55 * UsUnits.MmPerInch, "bermuda", Warm, .35 * UsUnits.MmPerInch, 0.65, 1600 * M2PerSqFt),
    ];
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
