using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;

namespace Valvewright.Page.Tests;

/// <summary>Pages of a site in US units with a clock of 12 hours, and of one that has no plan yet: as well to be read as others, and they
/// say what they must.</summary>
[Collection(OnStage.Name)]
public sealed partial class OtherSitesTests(Stage stage, OtherSites sites)
{
    private static readonly Seat[] Sizes = [new Seat(), Seat.Phone];

    public static TheoryData<string> OfPlannedSite() =>
        ["survey", "needs", "plan", "proof", "cards?controller={controller}", "year", "timeline", "reading", "visits/new"];

    public static TheoryData<string> WhereAPlanIsWanted() => ["plan", "proof", "cards", "year", "timeline"];

    [Theory]
    [MemberData(nameof(OfPlannedSite))]
    public async Task A_site_in_US_units_shows_no_others_and_no_clock_of_24_hours(string path)
    {
        Visitor visitor = await sites.Visitor(stage, "en");
        await visitor.Go(sites.American.At($"sites/{{site}}/{path}"));
        List<string> faults = await Faults(visitor);
        string shown = await visitor.Page.Locator("main").InnerTextAsync();
        if (path == "survey")
        {
            // Step by step; the last is the text as it was written.
            ILocator steps = visitor.Page.Locator("nav.steps button");
            for (int step = 1; step < await steps.CountAsync() - 1; step++)
            {
                await steps.Nth(step).ClickAsync();
                await visitor.Settle();
                await visitor.Page.EvaluateAsync("() => window.openAll()");
                shown += await visitor.Page.Locator("main").InnerTextAsync();
            }
        }

        faults.AddRange(Metric().Matches(shown).Select(m => $"metric: {Around(shown, m)}"));
        // The survey lets one choose between the two.
        faults.AddRange(Of24Hours().Matches(path == "survey" ? "" : shown).Select(m => $"24 hours: {Around(shown, m)}"));
        Told.None(faults);
        if (path is "plan" or "timeline" || path.StartsWith("cards", StringComparison.Ordinal))
        {
            Assert.Matches(@"\d:\d\d\s(am|pm)", shown);
        }

        visitor.MustNotComplain();
    }

    /// <summary>Where a plan is wanted the page says that there is none and leads to making one; there, it is made.</summary>
    [Theory]
    [MemberData(nameof(WhereAPlanIsWanted))]
    public async Task A_site_without_a_plan_says_so_and_what_to_do(string path)
    {
        foreach ((string language, string none, string make) in (
            (string, string, string)[])[("es", "plan", "Hacer plan"), ("en", "plan", "Make plan")])
        {
            Visitor visitor = await sites.Visitor(stage, language);
            await visitor.Go(sites.Bare.At($"sites/{{site}}/{path}"));
            List<string> faults = language == "es" ? await Faults(visitor) : [];
            string shown = await visitor.Page.Locator("main").InnerTextAsync();
            Assert.Matches(language == "es" ? "(?i)no hay (ningún )?plan|todavía no (hay|tiene)"
                : "(?i)no plan( for this site)? yet|has no plan", shown);
            if (path != "plan")
            {
                await visitor.Page.Locator("main a[href$='/plan']").First.ClickAsync();
                await visitor.Page.WaitForURLAsync("**/plan");
            }

            await visitor.Page.GetByRole(AriaRole.Button, new() { Name = make }).WaitForAsync();
            Told.None(faults);
            Assert.Contains(none, shown, StringComparison.OrdinalIgnoreCase);
            visitor.MustNotComplain();
        }
    }

    [Theory]
    [InlineData("reading")]
    [InlineData("visits")]
    public async Task What_needs_no_plan_is_there_without_one(string path)
    {
        Visitor visitor = await sites.Visitor(stage, "es");
        await visitor.Go(sites.Bare.At($"sites/{{site}}/{path}"));
        Told.None(await Faults(visitor));
        Assert.Equal(0, await visitor.Page.Locator("main .note.wrong").CountAsync());
        visitor.MustNotComplain();
    }

    /// <summary>Where weather is wanting the page says so beforehand, the work that fails says so, and both lead to the step of the survey
    /// that mends it.</summary>
    [Theory]
    [InlineData("en", "Make plan", "The weather file named in the survey was not sent.", "Weather in the survey", "Weather")]
    [InlineData("es", "Hacer plan", "No se envió el archivo meteorológico que nombran los datos del sitio.",
        "Datos meteorológicos del sitio", "Datos meteorológicos")]
    public async Task Without_weather_a_plan_fails_plainly(string language, string make, string why, string mend, string step)
    {
        Visitor visitor = await sites.Visitor(stage, language);
        // By way of the same page of another site: the work must be asked for of the site that is shown.
        await visitor.Go(sites.Bare.At("sites/{site}/plan"));
        await visitor.Go(sites.Unmeasured.At("sites/{site}/plan"));
        Assert.Equal(1, await visitor.Page.GetByText(why).CountAsync());
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = make }).ClickAsync();
        await visitor.Page.Locator("#job .note.wrong", new() { HasText = why }).WaitForAsync();
        Told.None(await Faults(visitor));
        await visitor.Page.Locator("#job").GetByRole(AriaRole.Link, new() { Name = mend }).ClickAsync();
        await visitor.Page.Locator("#survey-step", new() { HasText = step }).WaitForAsync();
        visitor.MustNotComplain();
    }

    private static async Task<List<string>> Faults(Visitor visitor)
    {
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        List<string> faults = [];
        foreach (Seat size in Sizes)
        {
            await visitor.Page.SetViewportSizeAsync(size.Width, size.Height);
            await visitor.Settle();
            faults.AddRange((await Looks.Faults(visitor.Page)).Select(f => $"{size.Width} px: {f}"));
        }

        return faults;
    }

    private static string Around(string text, Match match) =>
        text[Math.Max(0, match.Index - 40)..Math.Min(text.Length, match.Index + match.Length + 20)].ReplaceLineEndings(" ");

    [GeneratedRegex(@"\d\s(mm|cm|m|km|m²|m³|L|L/min|kPa|bar|°C)\b(?!/)|\bmm\b")]
    private static partial Regex Metric();

    [GeneratedRegex(@"(?<![\d:])(0\d|1[3-9]|2[0-3]):[0-5]\d\b")]
    private static partial Regex Of24Hours();
}
