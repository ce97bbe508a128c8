using System.Globalization;
using Valvewright.Cli.Output;
using Valvewright.Engine.Power;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>Amounts that are measured in the field, in the units of a site and the language of a sheet.</summary>
internal sealed class FieldAmounts(UnitSystem units, Language language)
{
    private readonly Wording wording = Wording.In(language);

    /// <summary>The amounts of a site.</summary>
    public static FieldAmounts Of(Site site, Sheet sheet) => new(site.Units, sheet.Language);

    private bool Us => units == UnitSystem.UsCustomary;

    /// <summary>Unit of pressures.</summary>
    public string PressureUnit => Us ? "psi" : "kPa";

    /// <summary>Unit of flows.</summary>
    public string FlowUnit => Us ? "gpm" : "L/min";

    /// <summary>Unit of volumes.</summary>
    public string VolumeUnit => Us ? "gal" : "m3";

    public string Pressure(double kpa) => Number(Us ? kpa / Units.Psi.Factor : kpa, Us ? 1 : 0);

    public string Flow(double lpm) => Number(Us ? lpm / UsUnits.LitresPerGallon : lpm, 1);

    public string Velocity(double mps) => Us ? $"{Number(mps / UsUnits.MPerFoot, 1)} ft/s" : $"{Number(mps, 2)} m/s";

    public string Length(double m) => Us ? $"{Number(m / UsUnits.MPerFoot, 0)} ft" : $"{Number(m, 0)} m";

    public string Rate(double mmPerHour) => Us ? $"{Number(mmPerHour / UsUnits.MmPerInch, 2)} in/h" : $"{Number(mmPerHour, 1)} mm/h";

    public string Depth(double mm) => Us ? $"{Number(mm / UsUnits.MmPerInch, 2)} in" : $"{Number(mm, 1)} mm";

    public string Volume(double m3) => Us ? wording.Whole(m3 * 1000 / UsUnits.LitresPerGallon)
        : Number(m3, Math.Abs(m3) switch { < 10 => 2, < 100 => 1, _ => 0 });

    public static Sentence Range(ResultRange spread, Func<double, string> show) =>
        $"{show(spread.Value)} ({show(spread.Low)} to {show(spread.High)})";

    public string Percent(double share) => wording.Percent(Number(100 * share, 0));

    public static string Number(double value, int decimals) =>
        value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
