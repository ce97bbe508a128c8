using System.Text.Json;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using Valvewright.App.Pages.History;
using Valvewright.App.Pages.Plans;
using Valvewright.App.Parts;
using Valvewright.App.Shelf;
using Valvewright.App.Tests.Texts;
using Valvewright.App.Texts;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Tests.Pages;

/// <summary>Why there is no plan, which rules are broken and which years a season rests on are said in Spanish; what was kept in English
/// alone is shown as that.</summary>
public sealed class EnginesSentencesInSpanish
{
    private static readonly SiteWords Say = new(default, default, Wording.In(Language.Spanish));

    [Fact]
    public async Task Why_there_is_no_plan()
    {
        Sentence minutes = $"{45} minutes";
        Sentence what = $"On the busiest day the permitted hours are short by at least {minutes}.";
        ObstacleView told = Sent(new ObstacleView("Creek", what, ["x"])
            { Said = SentenceParts.Of(what), Changes = [new AdviceView("lessAsked", "x", "Creek") { Percent = 5 }] });
        string shown = await Shown<Obstacles>(new() { ["Found"] = (ListOf<ObstacleView>)[told], ["Say"] = Say });
        Assert.Contains("En el día más cargado faltan al menos 45 minutos de horas permitidas.", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("lang=\"en\"", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_told_in_English_alone_is_marked_as_English()
    {
        string shown = await Shown<Obstacles>(
            new() { ["Found"] = (ListOf<ObstacleView>)[new ObstacleView("Creek", "Too little of something.", [])], ["Say"] = Say });
        Assert.Contains("<span lang=\"en\">Too little of something.</span>", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rules_that_are_broken()
    {
        Breach breach = Sent(
            new Breach(BreachKind.NotKeyable, "North", $"percent adjust {205}; it takes {10} to {200} in steps of {10}", null, null, 1));
        Assert.Equal("percent adjust 205; it takes 10 to 200 in steps of 10", breach.What.Text);
        Assert.Contains("<span>ajuste porcentual 205; admite de 10 a 200 en pasos de 10</span>",
            await Shown<Spoken>(new() { ["Sentence"] = breach.What }), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_proof_that_was_kept_before_its_sentences_had_places_is_read()
    {
        Breach breach = PageJson.Read<Breach>(
            """{"kind":"notKeyable","where":"North","what":"4 start times; it holds 3","worst":null,"firstAt":null,"count":1}""")!;
        Assert.Equal("4 start times; it holds 3", breach.What.Text);
        Assert.Contains("<span lang=\"en\">4 start times; it holds 3</span>", await Shown<Spoken>(new() { ["Sentence"] = breach.What }),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        true, "Planificado con 2 años (2001, 2002), verificado con otros 1 (2003). Visitas: 1 abr: North 80 %; 1 jul: North 100 %.")]
    [InlineData(false,
        "En inglés: «Planned with 2 years (2001, 2002), proven on 1 others (2003).» Visitas: 1 abr: North 80 %; 1 jul: North 100 %.")]
    public async Task The_season_in_the_history(bool hasPlaces, string said)
    {
        Sentence years = $"Planned with {2} years ({"2001, 2002"}), proven on {1} others ({"2003"}).{(Sentence)""}";
        SeasonPlan season = new()
        {
            Dates = [new AnnualDate(4, 1), new AnnualDate(7, 1)], Controllers = [new ControllerSeason("North", [80, 100])],
            CostLitres = 1, BoundLitres = null, WaterM3 = 1, MinimumM3 = 1, UseMet = 1, ShortLitres = 0, Options = new SeasonOptions(),
        };
        SeasonKept kept = new(years, season, new VisitCurve([], 2), new YearOfWater(new AnnualDate(1, 1), []))
            { YearsSaid = hasPlaces ? SentenceParts.Of(years) : null };
        Assert.Equal(said, SeasonSaid.Of(JsonSerializer.Serialize(kept, Json.Options), await InSpanish.Words()));
        Assert.Null(SeasonSaid.Of("{}", await InSpanish.Words()));
    }

    /// <summary>As it arrives at the page.</summary>
    private static T Sent<T>(T value) => PageJson.Read<T>(JsonSerializer.Serialize(value, Json.Options))!;

    private static async Task<string> Shown<T>(Dictionary<string, object?> given)
        where T : IComponent
    {
        ServiceCollection services = new();
        services.AddSingleton(await InSpanish.Words());
        services.AddSingleton(new Valvewright.App.Person.Preferences(null!));
        await using ServiceProvider provider = services.BuildServiceProvider();
        await using HtmlRenderer renderer = new(provider, NullLoggerFactory.Instance);
        return System.Net.WebUtility.HtmlDecode(await renderer.Dispatcher
            .InvokeAsync(async () => (await renderer.RenderComponentAsync<T>(ParameterView.FromDictionary(given))).ToHtmlString()));
    }
}
