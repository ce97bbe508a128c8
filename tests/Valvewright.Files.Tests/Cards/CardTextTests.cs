using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Tests.Cards;

/// <summary>The card in the terminal.</summary>
public sealed class CardTextTests
{
    [Theory]
    [InlineData(Language.English)]
    [InlineData(Language.Spanish)]
    public void No_line_passes_80_columns(Language language)
    {
        foreach ((Site site, Plan plan) in new[] { CardSites.Small(), CardSites.Typical(), CardSites.Largest() })
        {
            string text = CardText.Write(CardContent.Of(site, plan, plan.Controllers[0].Controller, CardSites.Day), language);
            Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 80, line));
        }
    }

    [Theory]
    [InlineData(Language.English, "Also enter, 1 Sep: Program B: Every 18 days (Days remaining: 2)")]
    [InlineData(Language.Spanish, "Introduzca además, 1 sep: Programa B: Cada 18 días (Días que faltan: 2)")]
    public void A_visit_that_brings_other_programs_says_which(Language language, string expected)
    {
        (Site site, Plan plan) = CardSites.Typical();
        ControllerPlan own = plan.Controllers[0];
        Program rare = own.Settings.Programs[1] with { Days = new EveryNDays(18, new LocalDate(2026, 9, 3)) };
        Settings autumn = new([own.Settings.Programs[0], rare]);
        plan = plan with { Controllers = [
            own with { Visits = [own.Visits[0] with { Programs = own.Settings.Programs }, own.Visits[1],
                own.Visits[2] with { Programs = autumn.Programs }, own.Visits[3]] }] };
        CardContent card = CardContent.Of(site, plan, "North gate", CardSites.Day);
        string text = string.Join(' ', CardText.Write(card, language).Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains(expected, text, StringComparison.Ordinal);
        Assert.Contains(CheckText.Of(autumn), text, StringComparison.Ordinal);
        Assert.Equal(2, card.Changes.Count);

        // Keyed in after that visit, the card holds its programs.
        Assert.Equal(autumn.Programs, CardContent.Of(site, plan, "North gate", new LocalDate(2026, 9, 20)).Programs.Select(p => p.Program));
    }

    [Fact]
    public void Cautions_that_do_not_apply_are_left_out()
    {
        (Site site, Plan plan) = CardSites.Typical();
        ControllerPlan own = plan.Controllers[0];
        plan = plan with { Controllers = [own with { Visits = own.Visits.Where(v => v.Percent > 0).ToListOf() }] };
        string fresh = CardText.Write(CardContent.Of(site, plan, "North gate", CardSites.Day), Language.English);
        Assert.DoesNotContain("Winter:", fresh, StringComparison.Ordinal);
        Assert.DoesNotContain("Reclaimed", fresh, StringComparison.Ordinal);
        site = site with { Supplies = site.Supplies.Select(s => s with { Kind = SupplyKind.Reclaimed }).ToListOf() };
        string reclaimed = CardText.Write(CardContent.Of(site, plan, "North gate", CardSites.Day), Language.English);
        Assert.InRange(reclaimed.IndexOf("Reclaimed water:", StringComparison.Ordinal), 1,
            reclaimed.IndexOf("Clock and date", StringComparison.Ordinal));
    }

    [Fact]
    public void Steps_come_in_keying_order()
    {
        (Site site, Plan plan) = CardSites.Typical();
        string text = CardText.Write(CardContent.Of(site, plan, "North gate", CardSites.Day), Language.English);
        string[] order =
        [
            "Before you start", "Digging:", "Traffic:", "Local codes", "1   Clock and date", "1 hour behind your watch", "Batteries:",
                "2   Program A", "Mon Wed Fri", "1  04:00", "2  05:30", "3–4: clear",
            "at percent adjust 100%", "1  Rose bed", "0 h 12 min", "2  Front lawn", "0 h 20 min", "3  Back lawn", "0 h 18 min",
                "4  Old lindens", " 0",
            "50 min × 2", "100 min", "06:20", "3   Program B", "Every 9 days", "Days remaining: 3 (if set on Wed 1 Jul; first watering",
                "1  21:00", "1 h 30 min",
            "4   Program C is not used: clear all its start times.", "6   Percent adjust: 100%", "from 15 Apr 60%", "from 20 Oct off",
                "Winter: off does not empty pipes.", "Check  ",
            "Next waterings", "Wed 1 Jul", "A 04:00–06:20 ×2", "Sat 4 Jul", "B 21:00–22:30",
        ];
        int at = 0;
        foreach (string words in order)
        {
            int found = text.IndexOf(words, at, StringComparison.Ordinal);
            Assert.True(found >= 0, $"'{words}' does not follow in:\n{text[at..]}");
            at = found + words.Length;
        }
    }
}
