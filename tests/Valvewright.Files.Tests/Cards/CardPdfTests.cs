using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using NodaTime;
using UglyToad.PdfPig;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Keying;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Cards;

/// <summary>What is printed is what was planned.</summary>
public sealed class CardPdfTests
{
    public static TheoryData<string, PaperSize, Language> Sheets()
    {
        TheoryData<string, PaperSize, Language> data = [];
        foreach (string site in new[] { "small", "typical", "largest" })
        {
            foreach (PaperSize paper in Enum.GetValues<PaperSize>())
            {
                foreach (Language language in Enum.GetValues<Language>())
                {
                    data.Add(site, paper, language);
                }
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void The_page_read_back_equals_the_plan(string name, PaperSize paper, Language language)
    {
        (Site site, Plan plan) = name switch { "small" => CardSites.Small(), "typical" => CardSites.Typical(), _ => CardSites.Largest() };
        ReadsBack(site, plan, plan.Controllers[0].Controller, paper, language);
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void The_code_leads_to_the_work_where_a_server_is_known(string name, PaperSize paper, Language language)
    {
        (Site site, Plan plan) = name switch { "small" => CardSites.Small(), "typical" => CardSites.Typical(), _ => CardSites.Largest() };
        Guid id = new("0190a0b0-c0d0-7e0f-8a1b-2c3d4e5f6071");
        string link = WorkLink.Of(new Uri("https://sites.example.org/"), id, plan.Controllers[0].Controller, CardSites.Day)!;
        ReadsBack(site, plan, plan.Controllers[0].Controller, paper, language, link);
        Assert.StartsWith($"https://sites.example.org/sites/{id}/at?controller=", link, StringComparison.Ordinal);
        Assert.EndsWith($"&from={CardSites.Day:uuuu-MM-dd}", link, StringComparison.Ordinal);

        // An address that only its own machine can open is no link for a telephone.
        Assert.All(new[] { "http://localhost:5280/", "http://127.0.0.1:5280/", "http://[::1]/" },
            own => Assert.Null(WorkLink.Of(new Uri(own), id, "Gate", CardSites.Day)));
    }

    [Fact]
    public void Any_settings_of_the_largest_profile_fit_one_page_and_read_back() =>
        Gen.Select(RandomSettings.Any, Gen.Bool, Gen.Bool, Gen.Bool).ForEvery((settings, letter, spanish, hours12) =>
        {
            Site site = CardSites.Site(CardSites.Profile(12, 4, 8), Enumerable.Range(1, 12).Select(s => CardSites.Zone(s, $"Zone {s}")));
            site = site with { Clock = hours12 ? ClockStyle.Hours12 : ClockStyle.Hours24 };
            Plan plan = new(site.Name, [new ControllerPlan("North gate", settings with { PercentAdjust = 100 }, [])]);
            ReadsBack(site, plan, "North gate", letter ? PaperSize.Letter : PaperSize.A4, spanish ? Language.Spanish : Language.English);
        }, iter: 12);

    public static TheoryData<string> DemoSites() =>
        [.. Directory.GetDirectories(Path.Combine(Checkout.Root, "demo")).Where(d => File.Exists(Path.Combine(d, "site.yaml")))
            .Select(d => Path.GetFileName(d)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(DemoSites))]
    public void Every_demo_controller_has_a_page_that_reads_back(string demo)
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", demo)).Site!;
        Plan plan = new(site.Name, [.. site.Controllers.Select((c, i) => new ControllerPlan(c.Name, Full(c, i), []))]);
        for (int i = 0; i < site.Controllers.Count; i++)
        {
            ReadsBack(site, plan, site.Controllers[i].Name, i % 2 == 0 ? PaperSize.A4 : PaperSize.Letter,
                i % 3 == 1 ? Language.Spanish : Language.English);
        }
    }

    [Fact]
    public void The_same_cards_give_the_same_bytes()
    {
        (Site site, Plan plan) = CardSites.Typical();
        CardContent card = CardContent.Of(site, plan, "North gate", CardSites.Day);
        byte[] first = CardPdf.Write([card, card], PaperSize.A4, Language.English);
        Assert.Equal(first, CardPdf.Write([card, card], PaperSize.A4, Language.English));

        // Nothing of the writer's clock is left: no other date stands in it than one that never changes.
        string text = Encoding.Latin1.GetString(first);
        Assert.All(Regex.Matches(text, @"D:\d{14}").Select(m => m.Value), d => Assert.Equal("D:20000101000000", d));
        Assert.DoesNotContain($"{DateTime.UtcNow:yyyy-MM-dd}T", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Fonts_are_embedded()
    {
        (Site site, Plan plan) = CardSites.Typical();
        byte[] pdf = CardPdf.Write([CardContent.Of(site, plan, "North gate", CardSites.Day)], PaperSize.A4, Language.Spanish);
        string text = Encoding.Latin1.GetString(pdf);
        using PdfDocument document = PdfDocument.Open(pdf);
        CardPage page = new(document.GetPage(1), Language.Spanish, ClockStyle.Hours24);
        Assert.All(page.Fonts, f => Assert.Matches(@"^[A-Z]{6}\+Atkinson", f));
        Assert.Equal(page.Fonts.Count(), text.Split("/FontFile2").Length - 1);
        Assert.True(pdf.Length < 60_000, $"{pdf.Length} bytes: the fonts are not reduced to the signs in use.");
    }

    [Theory]
    [InlineData("Jardín de la Cañada – ½ × 3 °", "Jardín de la Cañada – ½ × 3 °")]
    [InlineData("東京 park 🌳", "◊◊ park ◊")]
    [InlineData("حديقة", "◊◊◊◊◊")]
    [InlineData("a\u0000b\r\n\tc\u202ed", "a b c◊d")]
    [InlineData("\ud800 lone", "◊ lone")]
    [InlineData("<script>(%s) \\ {0}</script>", "<script>(%s) \\ {0}</script>")]
    public void Any_name_is_shown_or_visibly_replaced(string name, string shown)
    {
        (Site site, Plan plan) = CardSites.Typical();
        site = site with { Name = name, Controllers =
            [site.Controllers[0] with { Name = name, Zones = site.Controllers[0].Zones.Select(z => z with { Name = name }).ToListOf() }] };
        plan = new Plan(name, [plan.Controllers[0] with { Controller = name }]);
        CardPage page = ReadsBack(site, plan, name, PaperSize.A4, Language.English);
        Assert.Contains(shown, page.AllText, StringComparison.Ordinal);
        Assert.Equal(shown.Contains('◊', StringComparison.Ordinal), page.AllText.Contains("◊ replaces", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(300, "x")]
    [InlineData(3000, "long words of names ")]
    public void A_very_long_name_is_cut(int times, string part)
    {
        string name = string.Concat(Enumerable.Repeat(part, times));
        (Site site, Plan plan) = CardSites.Typical();
        site = site with { Name = name, Controllers =
            [site.Controllers[0] with { Name = name, Zones = site.Controllers[0].Zones.Select(z => z with { Name = name }).ToListOf() }] };
        ReadsBack(site, new Plan(name, [plan.Controllers[0] with { Controller = name }]), name, PaperSize.Letter, Language.Spanish);
    }

    [Fact]
    public void A_profile_beyond_the_largest_goes_on_on_more_pages()
    {
        Site site = CardSites.Site(CardSites.Profile(48, 8, 8), Enumerable.Range(1, 48).Select(s => CardSites.Zone(s, $"Zone {s}")));
        Settings settings = new(
            [.. Enumerable.Range(0, 8).Select(
                p => new Program(Profile.LetterOf(p), [new LocalTime(1 + p, 0)],
                    [.. Enumerable.Range(1, 48).Select(s => new RunTime(s, 60 * s))], new OddDays()))]);
        Plan plan = new(site.Name, [new ControllerPlan("North gate", settings, [])]);
        using PdfDocument document = PdfDocument
            .Open(CardPdf.Write([CardContent.Of(site, plan, "North gate", CardSites.Day)], PaperSize.A4, Language.English));
        Assert.InRange(document.NumberOfPages, 2, 6);
        for (int i = 1; i <= document.NumberOfPages; i++)
        {
            UglyToad.PdfPig.Content.Page sheet = document.GetPage(i);
            string all = new CardPage(sheet, Language.English, ClockStyle.Hours24).AllText;
            Assert.Contains($"Page {i} of {document.NumberOfPages}", all, StringComparison.Ordinal);
            Assert.All(sheet.Letters, l => Assert.InRange(l.StartBaseLine.Y, 20, sheet.Height - 20));
        }
    }

    /// <summary>Makes the card, reads the page, compares all settings, the check text and the code; gives the page for more.</summary>
    private static CardPage ReadsBack(Site site, Plan plan, string controller, PaperSize paper, Language language, string? work = null)
    {
        CardContent card = CardContent.Of(site, plan, controller, CardSites.Day) with { Work = work };
        using PdfDocument document = PdfDocument.Open(CardPdf.Write([card], paper, language));
        Assert.Equal(1, document.NumberOfPages);
        UglyToad.PdfPig.Content.Page sheet = document.GetPage(1);
        Assert.Equal(paper == PaperSize.A4 ? (595, 842) : (612, 792), ((int)Math.Round(sheet.Width), (int)Math.Round(sheet.Height)));
        Assert.All(sheet.Letters, l => Assert.True(
            l.StartBaseLine.X >= 20 && l.EndBaseLine.X <= sheet.Width - 20 && l.StartBaseLine.Y >= 20, $"'{l.Value}' is off the page."));
        CardPage page = new(sheet, language, site.Clock);
        Settings settings = plan.For(controller).Settings;
        Program[] expected = [.. settings.Programs.Where(p => p.StartTimes.Count > 0 || p.RunTimes.Count > 0).Select(Comparable)];
        (List<Program> programs, double smallest) = expected.Length == 0 ? ([], 11) : page.ReadPrograms(CardSites.Day);
        Assert.Equal(expected, programs.Select(Comparable));
        Assert.True(smallest >= 11 - 0.01, $"A setting is in {smallest} points.");
        Assert.True(page.SmallestType >= 8 - 0.01, $"Something is in {page.SmallestType} points.");
        Assert.Contains(card.Check, page.AllText, StringComparison.Ordinal);
        string code = page.ReadCode() ?? "no code found";
        if (work is not null)
        {
            Assert.Equal(work, code.Split('#')[0]);
            return page;
        }

        Assert.Equal(settings with { PercentAdjust = card.PercentNow == 0 ? settings.PercentAdjust : card.PercentNow },
            SettingsText.Read(code));
        return page;
    }

    /// <summary>Intervals count from any of their days: the same remainder is the same rule. No chosen day is no rule.</summary>
    private static Program Comparable(Program program) => program.Days switch
    {
        EveryNDays every => program with
            { Days = every with { Anchor = CardSites.Day
                .PlusDays(((Period.DaysBetween(CardSites.Day, every.Anchor) % every.Days) + every.Days) % every.Days) } },
        DaysOfWeek { Days.Count: 0 } => program with { Days = null },
        _ => program,
    };

    /// <summary>Settings that use all that a controller holds.</summary>
    private static Settings Full(SiteController controller, int seed)
    {
        Profile profile = controller.Profile;
        DayRule Rule(int program) => profile.DayRules[(program + seed) % profile.DayRules.Count] switch
        {
            DayRuleKind.Odd => new OddDays(),
            DayRuleKind.Even => new EvenDays(),
            DayRuleKind.Interval => new EveryNDays(profile.LargestIntervalDays, CardSites.Day.PlusDays(program - 40)),
            _ => new DaysOfWeek([IsoDayOfWeek.Tuesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Saturday]),
        };
        LocalTime Start(int program, int start) =>
            new LocalTime(0, 0).PlusMinutes((60 * start + 720 + profile.StartStepMinutes * program) % 1440);
        int step = profile.RunTimeStepSeconds;
        return new Settings([.. Enumerable.Range(0, profile.Programs).Select(p => new Program(
            Profile.LetterOf(p),
            [.. Enumerable.Range(0, profile.StartTimesPerProgram).Select(s => Start(p, s)).Distinct().Order()],
            [.. controller.Zones.Where(z => (z.Station + p) % 3 != 0)
                .Select(z => new RunTime(z.Station, Math.Min(step * (z.Station + 2 * p + 1), profile.RunTimeLimitSeconds)))],
            Rule(p)))]);
    }
}
