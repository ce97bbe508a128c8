namespace Valvewright.Files.Surveys.Yaml;

/// <summary>What every part of the reading needs to know of the site.</summary>
/// <param name="Findings">Where problems, questions and assumptions go.</param>
internal sealed record ReadingContext(Findings Findings)
{
    /// <summary>Units of plain numbers.</summary>
    internal UnitSystem Units { get; set; } = UnitSystem.Metric;

    /// <summary>Writes assumed values in the site's units.</summary>
    internal SiteAmounts Show => new(Units);
}
