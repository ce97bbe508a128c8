using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>What axe finds (rules of WCAG 2.2, its third level for contrast and targets), and beside it measurements of our own.</summary>
internal static class Looks
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
        Rules = new Dictionary<string, RuleOptions> { ["color-contrast-enhanced"] = new() { Enabled = true }, ["target-size"] = new() { Enabled = true } },
    };

    /// <summary>The rules that colours can break.</summary>
    private static readonly AxeRunOptions RulesOfColour = new()
    {
        RunOnly = new RunOnlyOptions { Type = "rule", Values = ["color-contrast", "color-contrast-enhanced", "link-in-text-block"] },
    };

    /// <summary>What is wrong with the page as it is shown now.</summary>
    /// <param name="page">The page.</param>
    /// <param name="ofColour">Only what colours can do: for the other look of a page that was looked through in one.</param>
    public static async Task<IEnumerable<string>> Faults(IPage page, bool ofColour = false)
    {
        string[] own = await page.EvaluateAsync<string[]>("() => window.looks()");
        AxeResult axe = await page.RunAxe(ofColour ? RulesOfColour : Rules);
        return own.Concat(axe.Violations.SelectMany(Lines));
    }

    private static IEnumerable<string> Lines(AxeResultItem violation) =>
        violation.Nodes.Take(5).Select(n => $"axe {violation.Id}: {n.Target} {n.Html[..Math.Min(n.Html.Length, 160)]} {string.Join(' ', n.Any.Select(a => a.Message))}");
}
