using System.Text.Json;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>
/// Everything by keyboard alone. On every page the whole way of the focus is gone along: each place must be come to, be in sight, show that
/// it has the focus (an outline of 2 px or more with a contrast of 3:1 or more: WCAG 2.2, 2.4.7, 2.4.11 and 1.4.11), and be left again.
/// </summary>
[Collection(AtWork.Name)]
public sealed class KeyboardTests(Stage stage)
{
    private const string Site = "Quarry Hill Memorial Garden";
    private const string Reading = "A: starts 5:00 12:00; days daily; stations 1=10 2=15";

    [Fact]
    public async Task The_whole_way_by_keyboard_alone()
    {
        await using Served served = await stage.Serve();
        await using Visitor visitor = await stage.Visit(served);
        Hands hands = new(visitor);
        await visitor.Open("");
        Stop? skip = await hands.Press("Tab");
        Assert.True(skip is { IsSkip: true }, $"{skip}");
        Assert.Equal("page", (await hands.Press("Enter"))?.Place);
        await hands.Walk();

        await hands.Follow(Site, Site);
        await hands.Walk();
        await Survey(hands, visitor);
        await Needs(hands);
        await Plan(hands, visitor);
        await Prove(hands, visitor);
        await Cards(hands, visitor);
        await hands.Follow("Visit schedule", "Visit schedule");
        await hands.Walk();
        await OpenAndClose(hands, "Limits");
        await hands.Follow("Timeline", "Timeline");
        await Choose(hands, "Percent adjust", "ArrowDown");
        await hands.Walk();
        await Check(hands, visitor);
        await Record(hands, visitor, served);
        await hands.Follow("History", "History");
        await OpenAndClose(hands, "");
        await hands.Walk();
        await Settings(hands, visitor);
        Told.None(hands.Faults);
        visitor.MustNotComplain();
    }

    [Fact]
    public async Task On_a_phone_the_steps_open_by_keyboard()
    {
        await using Served served = await stage.Serve();
        await using Visitor visitor = await stage.Visit(served, Seat.Phone);
        Hands hands = new(visitor);
        await visitor.Open(stage.Sites.Garden.At("sites/{site}"));
        await hands.To("All steps", "button");
        Assert.True((await hands.Press("Enter"))!.IsOpen);
        await hands.Follow("Cards", "Cards");
        await hands.Walk();
        await hands.Follow("Gate", "Gate");
        await hands.Walk();
        Told.None(hands.Faults);
    }

    private static async Task Survey(Hands hands, Visitor visitor)
    {
        await hands.Follow("Survey", "Survey: ");
        await hands.Walk();
        await hands.To("Zones", "button");
        await visitor.Page.Keyboard.PressAsync("Enter");
        await visitor.Page.Locator("#survey-step", new() { HasText = "Zones" }).WaitForAsync();
        Assert.Equal("survey-step", (await hands.Now())?.Place);
        Stop zone = await hands.To("1: ", "button");
        Assert.False(zone.IsOpen);
        Assert.True((await Pressed(hands, visitor, "Space"))!.IsOpen);
        await hands.Walk();
    }

    private static async Task Needs(Hands hands)
    {
        await hands.Follow("Needs", "Needs");
        await hands.Walk();
        await OpenAndClose(hands, "");
    }

    private static async Task Plan(Hands hands, Visitor visitor)
    {
        await hands.Follow("Plan", "Plan");
        await hands.Walk();
        Assert.Equal("5", (await Choose(hands, "Visits per year", "ArrowDown")).Value);
        await hands.To("Winter shutdown");
        Assert.True((await Pressed(hands, visitor, "Space"))!.IsTicked);
        await hands.To("Day", "select");
        await hands.To("Winter shutdown", key: "Shift+Tab");
        Assert.False((await Pressed(hands, visitor, "Space"))!.IsTicked);
    }

    /// <summary>While work goes on the button that asked for it is gone; the focus is not.</summary>
    private static async Task Prove(Hands hands, Visitor visitor)
    {
        await hands.Follow("Proof", "Proof");
        await hands.Walk();
        Stop prove = await hands.To("Prove", "button");
        await visitor.Page.Keyboard.PressAsync("Enter");
        await visitor.Page.Locator("#job progress").WaitForAsync();
        Assert.Equal("job", (await hands.Now())?.Place);
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = prove.Name, Exact = true }).WaitForAsync();
        await visitor.Settle();
        Assert.True((await hands.Now())?.IsHead);
    }

    private static async Task Cards(Hands hands, Visitor visitor)
    {
        await hands.Follow("Cards", "Cards");
        await hands.Walk();
        await hands.Follow("Gate", "Gate");
        await hands.Walk();
        for (Stop? at = null; at is not { InMain: true, Kind: "checkbox" };)
        {
            at = await hands.Press("Tab");
        }

        await Pressed(hands, visitor, "Space");
        await visitor.Page.GetByText("1 of").First.WaitForAsync();
    }

    private static async Task Check(Hands hands, Visitor visitor)
    {
        await hands.Follow("Check a reading", "Check a reading");
        await hands.To("Controller", "select");
        await hands.Type("G");
        await hands.To("Reading as dictated", "textarea");
        await hands.Type(Reading);
        await visitor.Page.Locator("main ol.findings > li").First.WaitForAsync();
        await visitor.Settle();
        await hands.Walk();
    }

    private async Task Record(Hands hands, Visitor visitor, Served served)
    {
        await hands.Follow("Visits", "Visits");
        await hands.Walk();
        await hands.Follow("Record a visit", "Record a visit");
        await hands.To("Controller", "select");
        await hands.Type("G");
        await hands.To("Display before you touch anything", "textarea");
        await hands.Type(Reading);
        await hands.To("Battery under load, volts");
        await hands.Type("8.6");
        await hands.To("Anything else", "textarea");
        await hands.Type("By keyboard.");
        await hands.To("Finish", "button");
        await visitor.Settle();
        await visitor.Page.Keyboard.PressAsync("Enter");
        await visitor.Page.Locator("main h1").Filter(new() { HasNotText = "Record a visit" })
            .Or(visitor.Page.Locator("main [role=alert]")).First.WaitForAsync();
        await visitor.Settle();
        string said = string.Join(' ', await visitor.Page.Locator("main [role=alert], main .field .wrong").AllInnerTextsAsync());
        Assert.True(said.Length == 0, said);
        await hands.Arrive("Visits");
        JsonElement visits = JsonSerializer.Deserialize<JsonElement>(
            await served.Client.GetStringAsync($"api/sites/{stage.Sites.Garden.Id}/visits"));
        Assert.Single(visits.EnumerateArray(), v => v.GetProperty("value").GetProperty("notes").GetString() == "By keyboard.");
    }

    private static async Task Settings(Hands hands, Visitor visitor)
    {
        await hands.Follow("Settings", "Device settings");
        await hands.Walk();
        await hands.To("English");
        await visitor.Page.Keyboard.PressAsync("ArrowDown");
        await visitor.Page.Locator("main h1", new() { HasText = "Configuración" }).WaitForAsync();
        Assert.Equal("Español", (await hands.Now())?.Name);
    }

    /// <summary>Opens something that holds more, goes into it and out again, and closes it.</summary>
    private static async Task OpenAndClose(Hands hands, string name)
    {
        await hands.To(name, "summary");
        Assert.True((await hands.Press("Enter"))!.IsOpen);
        await hands.Press("Tab");
        await hands.To(name, "summary", "Shift+Tab");
        Assert.False((await hands.Press("Enter"))!.IsOpen);
    }

    private static async Task<Stop> Choose(Hands hands, string field, string key)
    {
        string before = (await hands.To(field, "select")).Value;
        Stop after = (await hands.Press(key))!;
        Assert.NotEqual(before, after.Value);
        return after;
    }

    private static async Task<Stop?> Pressed(Hands hands, Visitor visitor, string key)
    {
        await visitor.Page.Keyboard.PressAsync(key);
        await visitor.Settle();
        return await hands.Now();
    }
}
