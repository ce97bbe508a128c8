using NodaTime;
using Valvewright.App.Ready;
using Valvewright.App.Shelf;
using Valvewright.Files.Texts;

namespace Valvewright.App.Tests.Ready;

/// <summary>Cards lie ready for every controller, in the version that the device has of the site, and in no other.</summary>
public sealed class ReadyCardsTests
{
    [Fact]
    public async Task Every_controller_has_one_though_none_was_looked_at()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        Assert.Equal(2, await garden.Cards.Make(garden.Version("\"1\"")));
        ReadyCard card = (await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Gate"))!;
        Assert.Equal(("\"1\"", "Gate", new LocalDate(2026, 4, 8)), (card.Version, card.Controller, card.Day));
        Assert.NotNull(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Terrace"));
        Assert.Null(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.Spanish, "Gate"));
    }

    [Fact]
    public async Task What_lies_there_for_today_is_not_made_again_and_is_made_again_on_another_day()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        await garden.Cards.Make(garden.Version("\"1\""));
        Assert.Equal(0, await garden.Cards.Make(garden.Version("\"1\"")));
        garden.Clock.AdvanceDays(1);
        Assert.Equal(2, await garden.Cards.Make(garden.Version("\"1\"")));
    }

    [Fact]
    public async Task Another_language_has_its_own()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        await garden.Preferences.Speak(Language.Spanish);
        await garden.Cards.Make(garden.Version("\"1\""));
        Assert.Contains("Programa B", (await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.Spanish, "Gate"))!.Html,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_version_of_the_site_takes_them_away_and_the_same_one_does_not()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        await garden.Cards.Make(garden.Version("\"1\""));
        await garden.Shelf.PutSite(garden.Version("\"1\"") with { FetchedAt = Instant.FromUtc(2026, 5, 1, 0, 0) });
        Assert.NotNull(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Gate"));
        await garden.Shelf.PutSite(garden.Version("\"2\""));
        Assert.Null(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Gate"));
    }

    [Fact]
    public async Task Of_a_version_that_the_device_no_longer_has_none_is_laid_there()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"2\""));
        Assert.Equal(0, await garden.Cards.Make(garden.Version("\"1\"")));
        Assert.Null(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Gate"));
    }

    [Fact]
    public async Task A_site_that_is_taken_off_the_device_takes_them_with_it_and_none_come_after()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        await garden.Cards.Make(garden.Version("\"1\""));
        await garden.Sites.ForgetAsync(garden.All.Site.Id);
        Assert.Empty(garden.Kept("ready"));
        Assert.Equal(0, await garden.Cards.Make(garden.Version("\"1\"")));
        Assert.Empty(garden.Kept("ready"));
    }

    [Fact]
    public async Task A_controller_that_the_survey_no_longer_has_gets_none()
    {
        Garden garden = new(controllerIsKnown: false);
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        Assert.Equal(1, await garden.Cards.Make(garden.Version("\"1\"")));
        Assert.Null(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Gate"));
    }

    [Fact]
    public async Task A_device_without_room_keeps_the_site_and_goes_on_without_them()
    {
        Garden garden = new();
        await garden.Shelf.PutSite(garden.Version("\"1\""));
        garden.Device.IsFull = true;
        await Assert.ThrowsAsync<ShelfException>(() => garden.Cards.Make(garden.Version("\"1\"")));
        garden.Cards.Want(garden.Version("\"1\""));
        await garden.Cards.Working;
        garden.Device.IsFull = false;
        Assert.Null(await garden.Shelf.ReadyCard(garden.All.Site.Id, Language.English, "Gate"));
        Assert.Equal(2, await garden.Cards.Make(garden.Version("\"1\"")));
    }
}
