using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>What axe finds (rules of WCAG 2.2, its third level for contrast and targets), and beside it measurements of our own.</summary>
internal static class Looks
{
    private const string Rules = """
        {
          resultTypes: ['violations'],
          runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] },
          rules: { 'color-contrast-enhanced': { enabled: true }, 'target-size': { enabled: true } }
        }
        """;

    /// <summary>The rules that colors can break.</summary>
    private const string RulesOfColor = """
        {
          resultTypes: ['violations'],
          runOnly: { type: 'rule', values: ['color-contrast', 'color-contrast-enhanced', 'link-in-text-block'] }
        }
        """;

    /// <summary>All of the page but rows of long tables that are like those before them; our own measurements look at each of
    /// them.</summary>
    private const string Context = "{ exclude: [['tbody tr:nth-child(n+9)']] }";

    private static readonly Lazy<string> Axe = new(() =>
    {
        using Stream? script = typeof(AxeResult).Assembly.GetManifestResourceStream("Deque.AxeCore.Commons.Resources.axe.min.js");
        using StreamReader reader = new(script ?? throw new InvalidOperationException("axe is not in its package."));
        return reader.ReadToEnd();
    });

    /// <summary>What is wrong with the page as it is shown now.</summary>
    /// <param name="page">The page.</param>
    /// <param name="ofColor">Only what colors can do: for the other look of a page that was looked through in one.</param>
    public static async Task<IEnumerable<string>> Faults(IPage page, bool ofColor = false)
    {
        if (!await page.EvaluateAsync<bool>("() => !!window.axe"))
        {
            await page.EvaluateAsync(Axe.Value);
        }

        string[] own = await OwnFaults(page);
        string[] axe = await page.EvaluateAsync<string[]>($$"""
            async () => (await window.axe.run({{Context}}, {{(ofColor ? RulesOfColor : Rules)}}))
              .violations.flatMap(v => v.nodes.slice(0, 5).map(n =>
                `axe ${v.id}: ${n.target.join(' ')} ${n.html.slice(0, 160)} ${n.any.map(a => a.message).join(' ')}`))
            """);
        return own.Concat(axe);
    }

    /// <summary>What our own measurements find.</summary>
    public static Task<string[]> OwnFaults(IPage page) => page.EvaluateAsync<string[]>("() => window.looks()");
}
