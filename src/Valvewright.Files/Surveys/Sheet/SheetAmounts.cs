using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>What the amounts of a survey measure, and the unit of a plain number.</summary>
public static class SheetAmounts
{
    private static readonly Dictionary<string, QuantityRule> Rules = new()
    {
        ["location/elevation"] = QuantityRule.Elevation,
        ["station/elevation"] = QuantityRule.Elevation,
        ["weather/wind height"] = QuantityRule.WindHeight,
        ["supplies/flow"] = QuantityRule.SupplyFlow,
        ["supplies/pressure"] = QuantityRule.Pressure,
        ["zones/area"] = QuantityRule.Area,
        ["zones/slope"] = QuantityRule.Slope,
        ["plants/root depth"] = QuantityRule.RootDepth,
        ["plants/allowed depletion"] = QuantityRule.Depletion,
        ["soil/sand"] = QuantityRule.Fraction,
        ["soil/clay"] = QuantityRule.Fraction,
        ["soil/organic matter"] = QuantityRule.OrganicMatter,
        ["soil/intake"] = QuantityRule.Intake,
        ["sprinklers/flow"] = QuantityRule.Flow,
        ["sprinklers/rate"] = QuantityRule.Rate,
        ["sprinklers/head flow"] = QuantityRule.HeadFlow,
        ["sprinklers/uniformity"] = QuantityRule.Uniformity,
        ["spacing/along"] = QuantityRule.HeadSpacing,
        ["spacing/between"] = QuantityRule.HeadSpacing,
        ["emitters/flow"] = QuantityRule.EmitterFlow,
        ["emitters/along"] = QuantityRule.EmitterSpacing,
        ["emitters/between"] = QuantityRule.EmitterSpacing,
        ["audit/minutes"] = QuantityRule.AuditTime,
        ["audit/opening"] = QuantityRule.CanOpening,
        ["rules/largest depth per cycle"] = QuantityRule.RuleDepth,
        ["rules/largest depth per day"] = QuantityRule.RuleDepth,
        ["profile/start step"] = QuantityRule.StartStep,
        ["profile/run time limit"] = QuantityRule.RunTimeLimit,
        ["profile/pause between stations"] = QuantityRule.Pause,
    };

    /// <summary>The dimension of the amount at a path, and the unit of a plain number in a system of units.</summary>
    /// <exception cref="KeyNotFoundException">No amount stands at such a path.</exception>
    public static (Dimension Dimension, Unit Usual) Of(string path, UnitSystem units)
    {
        ArgumentNullException.ThrowIfNull(path);
        string[] named = [.. path.Split('/').Where(step => step.Length > 0 && !step.All(char.IsAsciiDigit))];
        QuantityRule rule = Rules[string.Join('/', named[^2..])];
        return (rule.Dimension, units == UnitSystem.UsCustomary ? rule.Us : rule.Metric);
    }
}
