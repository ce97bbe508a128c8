using Valvewright.Page.Tests.Hosting;

namespace Valvewright.Page.Tests;

/// <summary>The measurements themselves, on a page made to break every rule.</summary>
[Collection(OnStage.Name)]
public sealed class MeasureTests(Stage stage)
{
    [Fact]
    public async Task What_breaks_the_rules_of_looks_is_found()
    {
        await using Served served = await Served.Start();
        await using Visitor visitor = await stage.Visit(served);
        await visitor.Open("settings");
        // Grey 119 on white has a contrast of 4.48 by the formula of WCAG 2.2 ("relative luminance", "contrast ratio"): (1 + 0.05) /
        // (0.1845 + 0.05).
        await visitor.Page.EvaluateAsync("""
            () => {
              const main = document.querySelector('main');
              const add = (html) => { const box = document.createElement('div'); box.innerHTML = html; main.append(box); return box.firstChild; };
              const grey = add('<p>grey words</p>'); grey.style.color = 'rgb(119,119,119)'; grey.style.backgroundColor = '#fff';
              const faint = add('<p>half seen</p>'); faint.style.color = 'rgba(0,0,0,0.4)'; faint.style.backgroundColor = '#fff';
              const small = add('<button>x</button>'); small.style.minHeight = '30px'; small.style.height = '30px'; small.style.padding = '0';
              const wide = add('<p>too wide</p>'); wide.style.width = '3000px'; wide.style.maxWidth = 'none';
              add('<p>In a sentence <a href="settings">a link</a> may be small.</p>');
              add('<ul><li><a href="settings">lone</a></li></ul>');
              add('<h1>Second</h1>'); add('<h4>Skips</h4>'); add('<p id="page">doubled</p>');
            }
            """);
        string all = string.Join('\n', await visitor.Page.EvaluateAsync<string[]>("() => window.looks()"));
        Assert.Contains("contrast 4.48: p \"grey words\"", all, StringComparison.Ordinal);
        Assert.Contains("half seen", all, StringComparison.Ordinal);
        Assert.Contains("x 30.0: button \"x\"", all, StringComparison.Ordinal);
        Assert.Contains("\"lone\"", all, StringComparison.Ordinal);
        Assert.DoesNotContain("\"a link\"", all, StringComparison.Ordinal);
        Assert.Contains("wider than the window", all, StringComparison.Ordinal);
        Assert.Contains("2 h1", all, StringComparison.Ordinal);
        Assert.Contains("h4 \"Skips\" skips a level", all, StringComparison.Ordinal);
        Assert.Contains("id page stands there 2 times", all, StringComparison.Ordinal);
    }
}
