using System.Reflection;
using System.Text.RegularExpressions;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>Every rule of docs/emulator.md has a test named after it, and every such test its rule.</summary>
public sealed partial class RulesAreTested
{
    [Fact]
    public void Each_numbered_rule_has_a_test_of_its_number()
    {
        string page = File.ReadAllText(Path.Combine(Checkout.Root, "docs", "emulator.md"));
        int[] rules = [.. NumberedLine().Matches(page).Select(m => int.Parse(m.Groups[1].Value))];
        Assert.Equal(Enumerable.Range(1, rules.Length), rules);
        int[] tested =
        [
            .. typeof(RulesAreTested).Assembly.GetTypes()
                .Where(t => t.Namespace == typeof(RulesAreTested).Namespace)
                .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Instance))
                .Select(m => RuleName().Match(m.Name))
                .Where(m => m.Success)
                .Select(m => int.Parse(m.Groups[1].Value))
                .Distinct()
                .Order(),
        ];
        Assert.Equal(rules, tested);
    }

    [GeneratedRegex(@"^(\d+)\. ", RegexOptions.Multiline)]
    private static partial Regex NumberedLine();

    [GeneratedRegex(@"^Rule_(\d+)_")]
    private static partial Regex RuleName();
}
