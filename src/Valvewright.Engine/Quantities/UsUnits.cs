namespace Valvewright.Engine.Quantities;

/// <summary>Factors by which figures are turned into US units. Exact: NIST Special Publication 811 (2008), appendix B.</summary>
public static class UsUnits
{
    /// <summary>Millimetres in an inch.</summary>
    public const double MmPerInch = 25.4;

    /// <summary>Metres in a foot.</summary>
    public const double MPerFoot = 0.3048;

    /// <summary>Litres in a US gallon of 231 cubic inches.</summary>
    public const double LitresPerGallon = 3.785411784;
}
