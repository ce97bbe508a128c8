using System.Globalization;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>What a quantity may be: its dimension, the unit of a plain number, what is possible and what is usual.</summary>
/// <param name="Name">What it is, in a sentence.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Metric">Unit of a plain number at a metric site.</param>
/// <param name="Us">Unit of a plain number at a US customary site.</param>
/// <param name="Least">The least possible, in the engine's unit.</param>
/// <param name="Largest">The largest possible.</param>
/// <param name="UsualLeast">Below this it is questioned.</param>
/// <param name="UsualLargest">Above this it is questioned.</param>
internal sealed record QuantityRule(
    Sentence Name, Dimension Dimension, Unit Metric, Unit Us, double Least, double Largest, double UsualLeast, double UsualLargest)
{
    internal static readonly QuantityRule Elevation = new("an elevation", Dimension.Length, Units.Metre, Units.Foot, -450, 6000, -100, 4500);
    internal static readonly QuantityRule WindHeight = new("the height of a wind gauge", Dimension.Length, Units.Metre, Units.Foot, 0.5, 100, 1.5, 12);
    internal static readonly QuantityRule SupplyFlow = new("the flow of a supply", Dimension.Flow, Units.LitrePerMinute, Units.GallonPerMinute, 0.1, 50_000, 2, 4000);
    internal static readonly QuantityRule Pressure = new("a static pressure", Dimension.Pressure, Units.Kilopascal, Units.Psi, 1, 3000, 70, 1000);
    internal static readonly QuantityRule Area = new("an area", Dimension.Area, Units.SquareMetre, Units.SquareFoot, 0.05, 1_000_000, 0.5, 20_000);
    internal static readonly QuantityRule Slope = Percent("a slope", 0, 200, 0, 60);
    internal static readonly QuantityRule Depletion = Percent("an allowed depletion", 1, 95, 15, 80);
    internal static readonly QuantityRule Uniformity = Percent("a distribution uniformity", 5, 100, 30, 95);
    internal static readonly QuantityRule Loss = Percent("a loss to wind and evaporation", 0, 60, 0, 30);
    internal static readonly QuantityRule Fraction = Percent("a share of the soil", 0, 100, 0, 100);
    internal static readonly QuantityRule OrganicMatter = Percent("organic matter", 0, 30, 0, 8);
    internal static readonly QuantityRule RootDepth = new("a root depth", Dimension.Length, Units.Centimetre, Units.Inch, 0.005, 5, 0.02, 2);
    internal static readonly QuantityRule Rate = new("a precipitation rate", Dimension.Rate, Units.MillimetrePerHour, Units.InchPerHour, 0.1, 1000, 1, 100);
    internal static readonly QuantityRule Intake = new("an intake rate", Dimension.Rate, Units.MillimetrePerHour, Units.InchPerHour, 0.1, 500, 1, 60);
    internal static readonly QuantityRule Flow = new("the flow of a zone", Dimension.Flow, Units.LitrePerMinute, Units.GallonPerMinute, 0.005, 10_000, 0.1, 500);
    internal static readonly QuantityRule HeadFlow = new("the flow of a head", Dimension.Flow, Units.LitrePerMinute, Units.GallonPerMinute, 0.001, 500, 0.05, 100);
    internal static readonly QuantityRule EmitterFlow = new("the flow of an emitter", Dimension.Flow, Units.LitrePerHour, Units.GallonPerHour, 0.001, 20, 0.008, 2);
    internal static readonly QuantityRule HeadSpacing = new("a spacing", Dimension.Length, Units.Metre, Units.Foot, 0.02, 60, 0.1, 30);
    internal static readonly QuantityRule EmitterSpacing = new("a spacing of emitters", Dimension.Length, Units.Centimetre, Units.Inch, 0.02, 20, 0.1, 3);
    internal static readonly QuantityRule RuleDepth = new("a depth of water", Dimension.Length, Units.Millimetre, Units.Inch, 0.0005, 0.5, 0.001, 0.1);
    internal static readonly QuantityRule CanDepth = new("a depth in a can", Dimension.Length, Units.Millimetre, Units.Inch, 0, 0.5, 0, 0.1);
    internal static readonly QuantityRule CanVolume = new("a volume in a can", Dimension.Volume, Units.Millilitre, Units.Millilitre, 0, 20, 0, 2);
    internal static readonly QuantityRule CanOpening = new("the opening of a can", Dimension.Area, Units.SquareCentimetre, Units.SquareInch, 0.0005, 1, 0.002, 0.1);
    internal static readonly QuantityRule AuditTime = new("how long the audit ran", Dimension.Duration, Units.Minute, Units.Minute, 10, 86_400, 120, 14_400);
    internal static readonly QuantityRule StartStep = Time("a step of start times", Units.Minute, 60, 86_400);
    internal static readonly QuantityRule RunTimeStep = Time("a step of run times", Units.Second, 1, 3600);
    internal static readonly QuantityRule RunTimeLimit = Time("the longest run time", Units.Minute, 60, 86_400);
    internal static readonly QuantityRule Pause = Time("a pause", Units.Second, 0, 3600);

    private static QuantityRule Percent(Sentence name, double least, double largest, double usualLeast, double usualLargest) =>
        new(name, Dimension.Share, Units.Percent, Units.Percent, least, largest, usualLeast, usualLargest);

    private static QuantityRule Time(Sentence name, Unit unit, double least, double largest) =>
        new(name, Dimension.Duration, unit, unit, least, largest, least, largest);

    internal Sentence Expected(UnitSystem system)
    {
        Unit unit = system == UnitSystem.Metric ? Metric : Us;
        return $"{Name} from {Round(Least / unit.Factor)} to {Round(Largest / unit.Factor)} {unit.Symbol}";
    }

    /// <summary>The value in the engine's unit, NaN with the reason among the findings.</summary>
    internal double Read(SurveyNode node, Reading reading)
    {
        Sentence expected = Expected(reading.Units);
        if (node is not TextNode text)
        {
            reading.Findings.Refuse(node, expected, "One value belongs here");
            return double.NaN;
        }

        QuantityReading quantity = QuantityText.Read(text.Text, Dimension, reading.Units == UnitSystem.Metric ? Metric : Us);
        if (quantity.Problem is { } problem)
        {
            reading.Findings.Refuse(text, expected, $"This is not {Name}: {problem}", problem.Text.EndsWith("known here", StringComparison.Ordinal) ? NearestUnit(text.Text) : null);
            return double.NaN;
        }

        if (quantity.Value < Least * (1 - 1e-9) - 1e-12 || quantity.Value > Largest * (1 + 1e-9))
        {
            reading.Findings.Refuse(text, expected, quantity.Value < 0 && Least >= 0 ? (Sentence)$"This cannot be negative: {Name}" : (Sentence)$"This is out of range for {Name}");
            return double.NaN;
        }

        if (quantity.Value < UsualLeast || quantity.Value > UsualLargest)
        {
            Sentence range = $"usually {Round(UsualLeast / quantity.Unit.Factor)} to {Round(UsualLargest / quantity.Unit.Factor)} {quantity.Unit.Symbol}";
            reading.Findings.Question(text, range, $"This is unusual for {Name}; it is used as written");
        }

        return quantity.Value;
    }

    private string? NearestUnit(string text)
    {
        string word = new([.. text.SkipWhile(c => !char.IsLetter(c))]);
        return word.Length == 0 ? null : NearestWord.To(word, Units.Of(Dimension).SelectMany(unit => unit.Spellings));
    }

    private static string Round(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
