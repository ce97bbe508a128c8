using System.Globalization;
using Valvewright.Engine.Quantities;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>Values in the site's units, for the list of assumptions.</summary>
internal readonly record struct SiteAmounts(UnitSystem Units)
{
    private bool Us => Units == UnitSystem.UsCustomary;

    internal string Depth(double mm) => Us ? $"{Number(mm / UsUnits.MmPerInch, 2)} in" : $"{Number(mm, 1)} mm";

    /// <summary>Water held in a depth of soil.</summary>
    internal string PerDepth(double mmPerM) => Us ? $"{Number(mmPerM / 1000, 3)} in/in" : $"{Number(mmPerM, 0)} mm/m";

    internal string ShortLength(double m) => Us ? $"{Number(m * 1000 / UsUnits.MmPerInch, 1)} in" : $"{Number(m * 100, 1)} cm";

    internal string Area(double m2) => Us ? $"{Number(m2 / (UsUnits.MPerFoot * UsUnits.MPerFoot), 0)} sq ft" : $"{Number(m2, 0)} m2";

    internal string Length(double m) => Us ? $"{Number(m / UsUnits.MPerFoot, 0)} ft" : $"{Number(m, 0)} m";

    internal string Rate(double mmPerHour) => Us ? $"{Number(mmPerHour / UsUnits.MmPerInch, 2)} in/h" : $"{Number(mmPerHour, 1)} mm/h";

    internal string Flow(double lpm) => Us ? $"{Number(lpm / UsUnits.LitresPerGallon, 2)} gpm" : $"{Number(lpm, 1)} L/min";

    internal static string Percent(double share) => $"{Number(100 * share, 0)} %";

    internal static string Number(double value, int decimals) =>
        Math.Round(value, decimals).ToString("0.###", CultureInfo.InvariantCulture);
}
