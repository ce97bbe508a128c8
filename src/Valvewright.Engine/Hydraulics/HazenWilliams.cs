namespace Valvewright.Engine.Hydraulics;

/// <summary>Friction in a full pipe by Hazen and Williams, and the velocity of the water.</summary>
/// <remarks>
/// h = 10.67 L Q^1.852 / (C^1.852 d^4.871) in meters and m3/s; the same in US units is psi per foot = 4.52 gpm^1.85 / (C^1.85 in^4.87).
/// The factor with one more digit, 10.667, is 4.727 of the form in feet and ft3/s (US EPA, EPANET 2.2 User Manual, table 3.1).
/// The formula is made for water near 16 C in turbulent flow; below about 0.1 m/s it gives too little.
/// </remarks>
public static class HazenWilliams
{
    /// <summary>Power of the flow.</summary>
    public const double FlowPower = 1.852;

    /// <summary>Kilopascals that one meter of water stands for.</summary>
    public const double KpaPerM = 9.80665;

    internal const double LpmPerM3S = 60_000;
    private const double DiameterPower = 4.871;
    private const double Factor = 10.667;
    private const double TwiceGravity = 2 * 9.80665;

    /// <summary>Head lost along a pipe, meters; its sign is the flow's.</summary>
    public static double LossM(double flowLpm, double lengthM, double insideDiameterMm, double roughness)
    {
        double flow = Math.Abs(flowLpm) / LpmPerM3S;
        return Math.Sign(flowLpm) * Resistance(lengthM, insideDiameterMm, roughness) * Math.Pow(flow, FlowPower);
    }

    /// <summary>Pressure lost along a pipe, kPa.</summary>
    public static double LossKpa(double flowLpm, double lengthM, double insideDiameterMm, double roughness) =>
        KpaPerM * LossM(flowLpm, lengthM, insideDiameterMm, roughness);

    /// <summary>Mean velocity in a full pipe.</summary>
    public static double VelocityMps(double flowLpm, double insideDiameterMm)
    {
        double diameter = insideDiameterMm / 1000;
        return Math.Abs(flowLpm) / LpmPerM3S / (Math.PI * diameter * diameter / 4);
    }

    /// <summary>Head lost in fittings whose loss coefficients add up to <paramref name="lossCoefficient"/>: K v2 / 2g, meters.</summary>
    public static double FittingLossM(double flowLpm, double insideDiameterMm, double lossCoefficient)
    {
        double velocity = VelocityMps(flowLpm, insideDiameterMm);
        return Math.Sign(flowLpm) * lossCoefficient * velocity * velocity / TwiceGravity;
    }

    /// <summary>r of h = r Q^1.852, Q in m3/s.</summary>
    internal static double Resistance(double lengthM, double insideDiameterMm, double roughness) =>
        Factor * lengthM / (Math.Pow(roughness, FlowPower) * Math.Pow(insideDiameterMm / 1000, DiameterPower));

    /// <summary>m of h = m Q2, Q in m3/s.</summary>
    internal static double FittingResistance(double insideDiameterMm, double lossCoefficient)
    {
        double diameter = insideDiameterMm / 1000;
        double area = Math.PI * diameter * diameter / 4;
        return lossCoefficient / (TwiceGravity * area * area);
    }
}
