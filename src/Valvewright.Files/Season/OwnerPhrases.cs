using System.Globalization;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Season;

/// <summary>Texts and amounts of the owner's page, in one language and a site's units.</summary>
internal sealed class OwnerPhrases(Language language, UnitSystem units)
{
    private readonly Wording texts = Wording.In(language);

    private bool Us => units == UnitSystem.UsCustomary;

    public string this[string name] => texts[$"season.{name}"];

    public string Fill(string name, params ReadOnlySpan<(string Place, object Value)> values) => texts.Fill($"season.{name}", values);

    public string Count(string name, int n) => texts.Count($"season.{name}", n);

    public string DepthUnit => Us ? "in" : "mm";

    /// <summary>A depth in the unit of the axis.</summary>
    public double Depth(double mm) => Us ? mm / UsUnits.MmPerInch : mm;

    public string Volume(double cubicMetres) => Us
        ? $"{Whole(cubicMetres * 1000 / UsUnits.LitresPerGallon)} gal"
        : $"{(cubicMetres < 10 ? Decimal(cubicMetres, 1) : Whole(cubicMetres))} m³";

    public string Number(double value) => value == Math.Round(value) ? Whole(value) : Decimal(value, Math.Abs(value) < 1 ? 2 : 1);

    public static string Decimal(double value, int decimals) =>
        value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    public string Percent(double part) => texts.Percent(Whole(100 * part));

    public string Setting(int percent) => percent == 0 ? this["off"] : texts.Percent(percent);

    /// <summary>14 May; 14 de mayo would be longer than a column.</summary>
    public string Date(AnnualDate date) => $"{date.Day} {Month(date.Month)}";

    public string Month(int month) => texts[$"month.{month}"];

    private string Whole(double value) => texts.Whole(value);
}
