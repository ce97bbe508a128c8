using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.Logging;
using Valvewright.App.Pages.Cards;
using Valvewright.App.Shelf;
using Valvewright.Engine.Plans;
using Valvewright.Files.Cards;
using Valvewright.Files.Texts;

namespace Valvewright.App.Ready;

/// <summary>Draws a card as text, with the parts that the live card is drawn with.</summary>
public sealed class ReadyMaker(IServiceProvider services, ILoggerFactory loggers)
{
    /// <summary>Tells the builds of the page apart: what one of them drew is drawn again by the next.</summary>
    public static string Maker { get; } = typeof(ReadyMaker).Module.ModuleVersionId.ToString("N");

    /// <summary>The card of a controller for a day.</summary>
    public async Task<ReadyCard> Make(OpenedSite site, OpenedPlan plan, string controller, LocalDate day, Language language)
    {
        CardContent card = CardContent.Of(site.Site, plan.Saved.Plan, controller, day);
        ControllerPlan planned = plan.Saved.Plan.For(controller);
        await using HtmlRenderer renderer = new(services, loggers);
        string html = await renderer.Dispatcher.InvokeAsync(
            async () => (await renderer.RenderComponentAsync<ReadyPage>(ParameterView.FromDictionary(new Dictionary<string, object?>
        {
            [nameof(ReadyPage.Site)] = site,
            [nameof(ReadyPage.Plan)] = plan,
            [nameof(ReadyPage.Card)] = card,
            [nameof(ReadyPage.Say)] = new CardPhrases(card, language),
        }))).ToHtmlString());
        return new ReadyCard(
            site.Carried.ETag, Maker, plan.View.Id, controller, day, plan.View.From, Holding.Until(site.Site, planned, card.Profile, day),
                site.Site.Zone().Id,
            CardTicks.NameOf(site.Id, controller, card.Check), $"{controller} – Valvewright", html);
    }
}
