using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>What the amounts of a survey measure, and the unit of a plain number.</summary>
public static class SheetAmounts
{
    /// <summary>The dimension of the amount at a path, and the unit of a plain number in a system of units.</summary>
    /// <exception cref="KeyNotFoundException">No amount stands at such a path.</exception>
    public static (Dimension Dimension, Unit Usual) Of(string path, UnitSystem units) =>
        SurveyTable.At(path)?.Kind is QuantityRule rule ? (rule.Dimension, rule.Usual(units)) : throw new KeyNotFoundException($"'{path}' is not an amount.");
}
