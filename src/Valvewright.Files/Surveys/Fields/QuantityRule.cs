using System.Globalization;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>An amount: its dimension, the unit of a plain number, what is possible and what is usual.</summary>
/// <param name="Name">What it is, in a sentence.</param>
/// <param name="Metric">Unit of a plain number at a metric site.</param>
/// <param name="Us">Unit of a plain number at a US customary site.</param>
/// <param name="Least">The least possible, in the engine's unit.</param>
/// <param name="Largest">The largest possible.</param>
/// <param name="UsualLeast">Below this it is questioned.</param>
/// <param name="UsualLargest">Above this it is questioned.</param>
public sealed record QuantityRule(
    string Name, Unit Metric, Unit Us, double Least, double Largest, double UsualLeast, double UsualLargest) : ValueKind<double>
{
    /// <summary>What it measures.</summary>
    public Dimension Dimension => Metric.Dimension;

    /// <summary>Whether it is a time in whole steps: one that a controller's manual gives.</summary>
    internal static QuantityRule Time(string name, Unit unit, double least, double largest) =>
        new(name, unit, unit, least, largest, least, largest);

    internal static QuantityRule Percent(string name, double least, double largest, double usualLeast, double usualLargest) =>
        new(name, Units.Percent, Units.Percent, least, largest, usualLeast, usualLargest);

    /// <summary>The unit of a plain number.</summary>
    public Unit Usual(UnitSystem units) => units == UnitSystem.UsCustomary ? Us : Metric;

    internal override Sentence Expected(UnitSystem units) =>
        $"{(Sentence)Name} from {Limit(Least, Usual(units))} to {Limit(Largest, Usual(units))} {Usual(units).Symbol}";

    /// <summary>A limit in a unit, short.</summary>
    internal static string Limit(double value, Unit unit) => (value / unit.Factor).ToString("0.###", CultureInfo.InvariantCulture);

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out double value)
    {
        QuantityReading quantity = QuantityText.Read(text.Text, Dimension, Usual(context.Units));
        value = quantity.Value;
        if (quantity.Problem is { } problem)
        {
            string? nearest = problem.Text.EndsWith("known here", StringComparison.Ordinal) ? NearestUnit(text.Text) : null;
            context.Findings.Refuse(text, expected, $"This is not {(Sentence)Name}: {problem}", nearest);
            return false;
        }

        if (value < (Least * (1 - 1e-9)) - 1e-12 || value > Largest * (1 + 1e-9))
        {
            Sentence name = Name;
            bool isNegative = value < 0 && Least >= 0;
            context.Findings.Refuse(
                text, expected, isNegative ? (Sentence)$"This cannot be negative: {name}" : (Sentence)$"This is out of range for {name}");
            return false;
        }

        if (value < UsualLeast || value > UsualLargest)
        {
            Sentence range = $"usually {Limit(UsualLeast, quantity.Unit)} to {Limit(UsualLargest, quantity.Unit)} {quantity.Unit.Symbol}";
            context.Findings.Question(text, range, $"This is unusual for {(Sentence)Name}; it is used as written");
        }

        return true;
    }

    private string? NearestUnit(string text)
    {
        string word = new([.. text.SkipWhile(c => !char.IsLetter(c))]);
        return word.Length == 0 ? null : NearestWord.To(word, Units.Of(Dimension).SelectMany(unit => unit.Spellings));
    }
}
