using System.Xml.Linq;
using NodaTime;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Season;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Tests.Season;

/// <summary>The page for the owner: one page, all of it readable, whatever the site.</summary>
public sealed class OwnerPageTests
{
    private static OwnerContent Content(
        int controllers, int visits, UnitSystem units = UnitSystem.Metric, string site = "Hill & <Vale>") => new(
        site,
        units,
        visits,
        Enumerable.Range(0, visits).Select(
            v => new OwnerVisit(new AnnualDate(1 + (v % 12), 3 + (v / 12)),
                Enumerable.Range(0, controllers).Select(c => (int?)(v == 0 ? 0 : 10 * (1 + c % 10))).ToListOf())).ToListOf(),
        Enumerable.Range(1, controllers).Select(c => $"Controller number {c} by the old chestnut avenue").ToListOf(),
        new YearOfWater(new AnnualDate(1, 1),
            Enumerable.Range(0, 52).Select(w => new WeekOfWater(10 + (w % 26), 30 - (w % 26), w % 20, 90 - w, 60 - (2 * w))).ToListOf()),
        7,
        [new OwnerWay(OwnerWayKind.ThisPlan, 1234.6, 0.86), new OwnerWay(OwnerWayKind.OnePercent, 2469, 0.2),
            new OwnerWay(OwnerWayKind.PeakAllYear, 3000, 1), new OwnerWay(OwnerWayKind.EveryMonth, 1300, 2)],
        1000,
        0.987);

    private static string TextOf(byte[] pdf)
    {
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Equal(1, document.NumberOfPages);
        return string.Concat(document.GetPage(1).GetWords().Select(w => w.Text + " ")).Replace('\u00a0', ' ');
    }

    [Theory]
    [InlineData(Language.English, "1,235 m³", "50%", "86% met", "Minimum", "Apr")]
    [InlineData(Language.Spanish, "1 235 m³", "50 %", "86 % cubierto", "Mínima", "abr")]
    public void It_says_what_is_set_and_what_that_saves(
        Language language, string water, string saved, string stress, string least, string month)
    {
        string text = TextOf(OwnerPage.Pdf(Content(3, 4), PaperSize.A4, language));
        Assert.All(new[] { water, saved, stress, least, month, language == Language.English ? "99%" : "99 %", "Hill & <Vale>" }, t =>
            Assert.Contains(t, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(1, 1, PaperSize.A4)]
    [InlineData(12, 12, PaperSize.Letter)]
    [InlineData(15, 12, PaperSize.Letter)]
    [InlineData(15, 14, PaperSize.A4)]
    public void However_much_there_is_it_stays_on_one_page(int controllers, int visits, PaperSize paper)
    {
        byte[] pdf = OwnerPage.Pdf(Content(controllers, visits, UnitSystem.UsCustomary), paper, Language.English);
        Assert.Equal(pdf, OwnerPage.Pdf(Content(controllers, visits, UnitSystem.UsCustomary), paper, Language.English));
        string text = TextOf(pdf);
        Assert.Contains("326,147 gal", text, StringComparison.Ordinal);
        Assert.Equal(controllers > 12, text.Contains($"and {controllers - 11} more controllers", StringComparison.Ordinal));
        using PdfDocument document = PdfDocument.Open(pdf);
        Page page = document.GetPage(1);
        Assert.All(page.Letters, l =>
        {
            Assert.InRange(l.BoundingBox.Left, 20, page.Width - 20);
            Assert.InRange(l.BoundingBox.Bottom, 20, page.Height - 20);
        });
    }

    [Fact]
    public void The_pictures_are_an_svg_document_and_a_png_file()
    {
        XDocument svg = XDocument.Parse(OwnerPage.Svg(Content(2, 3), PaperSize.A4, Language.English));
        Assert.Contains(svg.Descendants(), e => e.Name.LocalName == "text" && e.Value.Contains("Hill & <Vale>", StringComparison.Ordinal));
        // Every week has rain; water is 0 in three of them.
        Assert.Equal(52 + 49, svg.Descendants()
            .Count(e => e.Name.LocalName == "rect" && e.Elements().Any(t => t.Value.EndsWith(" mm", StringComparison.Ordinal))));
        Assert.Equal([0x89, 0x50, 0x4e, 0x47], OwnerPage.Png(Content(2, 3), PaperSize.Letter, Language.Spanish)[..4]);
    }

    [Fact]
    public void Signs_that_the_typeface_lacks_are_shown_as_such() =>
        Assert.Contains("◊◊", TextOf(OwnerPage.Pdf(Content(1, 2, site: "庭園"), PaperSize.A4, Language.English)), StringComparison.Ordinal);

    [Theory]
    [InlineData(0.0, 1)]
    [InlineData(0.07, 0.1)]
    [InlineData(1.0, 1)]
    [InlineData(1.3, 2)]
    [InlineData(4.2, 5)]
    [InlineData(60, 100)]
    public void Axes_step_by_round_numbers(double atLeast, double step) => Assert.Equal(step, WeekCharts.Step(atLeast), 9);
}
