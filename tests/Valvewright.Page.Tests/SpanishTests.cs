using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>In Spanish nothing is left in English but what people themselves wrote.</summary>
[Collection(OnStage.Name)]
public sealed class SpanishTests(Stage stage, Regulars regulars)
{
    public static TheoryData<string> Pages() => [.. Tour.All];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_shows_no_English(string path)
    {
        Visitor visitor = await regulars.At(stage, new Seat { Language = "es" });
        await visitor.Go(stage.Sites.Garden.At(path));
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        await visitor.Settle();
        Told.None(await EnglishLeft.On(visitor, "quarry-hill"));
        visitor.MustNotComplain();
    }
}
