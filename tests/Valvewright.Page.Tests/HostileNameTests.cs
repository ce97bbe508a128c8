using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>A site whose names are markup with script in it.</summary>
[Collection(OnStage.Name)]
public sealed class HostileNameTests(Stage stage, Regulars regulars)
{
    public static TheoryData<string> Pages() => [.. Tour.All];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Names_are_shown_as_text(string path)
    {
        Visitor visitor = await regulars.At(stage, new Seat());
        await visitor.Go(stage.Sites.Hostile.At(path));
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        await visitor.Settle();
        Assert.Equal("none", await visitor.Page.EvaluateAsync<string>("() => String(window.hit ?? 'none')"));
        Assert.Equal(0, await visitor.Page.Locator("main script, main img[src='x'], nav script, nav img[src='x']").CountAsync());
        if (path.Contains("{site}", StringComparison.Ordinal) || path.Length == 0)
        {
            Assert.Contains("<script>window.hit=1</script>", await visitor.Page.Locator("body").InnerTextAsync(), StringComparison.Ordinal);
        }

        visitor.MustNotComplain();
    }
}
