using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.App.Ready;
using Valvewright.App.Shelf;
using Valvewright.Files.Texts;

namespace Valvewright.App.Tests.Ready;

/// <summary>A card that lies ready since another day says nothing that is not so today, once what is marked as of the day is taken out of
/// it.</summary>
public sealed partial class WhatHoldsOfACard
{
    /// <summary>Zones of both halves of the earth, with summer time and without.</summary>
    [Theory]
    [InlineData("Asia/Baku")]
    [InlineData("Europe/Rome")]
    [InlineData("America/Santiago")]
    public async Task The_rest_is_the_same_on_every_day_until_which_it_holds(string zone)
    {
        Garden garden = new(zone);
        OpenedSite site = garden.Opened();
        int compared = 0;
        for (LocalDate day = new(2026, 2, 1); day < new LocalDate(2027, 2, 1); day = day.PlusDays(9))
        {
            ReadyCard card = await Card(garden, site, day);
            string rest = Lasting(card.Html);
            Assert.NotEqual(card.Html, rest);
            Assert.InRange(card.Until, day, day.PlusDays(Holding.MostDays));
            foreach (LocalDate later in (LocalDate[])[day.PlusDays(1), card.Until.PlusDays(-1), card.Until])
            {
                if (later > day && later <= card.Until)
                {
                    Assert.Equal(rest, Lasting((await Card(garden, site, later)).Html));
                    compared++;
                }
            }
        }

        Assert.True(compared > 60, $"{compared}");
    }

    [Theory]
    [InlineData("Asia/Baku", "2026-06-10", "2026-06-14", "the visit of 15 June")]
    [InlineData("Asia/Baku", "2026-10-15", "2026-10-31", "the visit of 1 November, which leaves it off")]
    [InlineData("Asia/Baku", "2026-06-15", "2026-07-16", "nothing changes: as long as any card")]
    [InlineData("Europe/Rome", "2026-03-20", "2026-03-28", "summer time begins on 29 March 2026")]
    public async Task It_holds_until_the_day_before_something_changes(string zone, string day, string until, string why)
    {
        Garden garden = new(zone);
        ReadyCard card = await Card(garden, garden.Opened(), NodaTime.Text.LocalDatePattern.Iso.Parse(day).Value);
        Assert.True(until == NodaTime.Text.LocalDatePattern.Iso.Format(card.Until), $"until {card.Until} instead of {until}: {why}");
    }

    [Fact]
    public async Task On_the_day_after_what_is_to_be_keyed_in_differs()
    {
        Garden garden = new();
        OpenedSite site = garden.Opened();
        ReadyCard before = await Card(garden, site, new LocalDate(2026, 6, 14)),
            after = await Card(garden, site, new LocalDate(2026, 6, 15));
        Assert.Equal(new LocalDate(2026, 6, 14), before.Until);
        Assert.NotEqual(Lasting(before.Html), Lasting(after.Html));
    }

    [Fact]
    public async Task Names_stand_in_it_as_text()
    {
        Garden garden = new(name: Garden.Hostile);
        string html = (await Card(garden, garden.Opened(), new LocalDate(2026, 4, 8))).Html;
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("&lt;script&gt;window.hit=1&lt;/script&gt;", html, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\son\w+\s*=|\sstyle\s*=", Tags().Matches(html).Aggregate("", (all, tag) => all + tag.Value));
    }

    private static Task<ReadyCard> Card(Garden garden, OpenedSite site, LocalDate day) =>
        garden.Maker.Make(site, site.BestPlan!, "Gate", day, Language.English);

    /// <summary>What is left when the page's script has emptied what is of the day, and what it does not show.</summary>
    private static string Lasting(string html)
    {
        while (OfDay().Match(html) is { Success: true } open)
        {
            // Elements of its own kind within it are closed before it is.
            int depth = 1, at = open.Index + open.Length;
            while (depth > 0)
            {
                Match next = Regex.Match(html[at..], $"<(?<end>/?){open.Groups["tag"].Value}[ >]");
                depth += next.Groups["end"].Length > 0 ? -1 : 1;
                at += next.Index + next.Length;
            }

            html = string.Concat(html.AsSpan(0, open.Index), "…", html.AsSpan(at));
        }

        return OfDayKey().Replace(Note().Replace(html, ""), "");
    }

    [GeneratedRegex(@"<(?<tag>\w+)(\s[^>]*)?\sdata-day(?![-\w])[^>]*>")]
    private static partial Regex OfDay();

    [GeneratedRegex(@"<div[^>]*data-other-day.*?</div>", RegexOptions.Singleline)]
    private static partial Regex Note();

    /// <summary>The box of a line that is of the day is not to be ticked then; its key names the day.</summary>
    [GeneratedRegex(@"<input[^>]*data-of-day[^>]*>")]
    private static partial Regex OfDayKey();

    [GeneratedRegex(@"<[^>]*>")]
    private static partial Regex Tags();
}
