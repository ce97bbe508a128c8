using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>Cards as a PDF: one page a controller, upright, black on white, to be printed and laminated.</summary>
public static class CardPdf
{
    /// <summary>Held while a PDF is made: the PDF library keeps its fonts for the whole process.</summary>
    internal static readonly Lock OneAtATime = new();

    /// <summary>Writes cards in their order. The same cards give the same bytes.</summary>
    /// <remarks>The PDF library keeps its fonts for the whole process, so that cards are made one after another.</remarks>
    public static byte[] Write(IReadOnlyCollection<CardContent> cards, PaperSize paper, Language language)
    {
        ArgumentNullException.ThrowIfNull(cards);
        if (cards.Count == 0)
        {
            throw new ArgumentException("There is no card to write.", nameof(cards));
        }

        lock (OneAtATime)
        {
            using PdfDocument document = new();
            Describe(document, cards.First(), language);
            foreach (CardContent card in cards)
            {
                Add(document, card, paper, language);
            }

            using MemoryStream stream = new();
            document.Save(stream);
            return SteadyBytes.Of(stream.ToArray());
        }
    }

    /// <summary>The sheet that goes with a site's units where no one says which.</summary>
    public static PaperSize UsualPaper(UnitSystem units) => units == UnitSystem.UsCustomary ? PaperSize.Letter : PaperSize.A4;

    private static void Describe(PdfDocument document, CardContent card, Language language)
    {
        CardPhrases say = new(card, language);
        document.Info.Title = $"{say["title"]}: {CardFonts.Coverage.Printable(card.Site)}";
        document.Info.Creator = "Valvewright";
        document.Language = language == Language.Spanish ? "es" : "en";
    }

    private static void Add(PdfDocument document, CardContent card, PaperSize paper, Language language)
    {
        XSize size = PageSizeConverter.ToSize(paper == PaperSize.A4 ? PageSize.A4 : PageSize.Letter);
        using XGraphics measuring = XGraphics.CreateMeasureContext(size, XGraphicsUnit.Point, XPageDirection.Downwards);
        CardPages pages = new(card, new CardPhrases(card, language), new Sheet(measuring), size.Width, size.Height);
        foreach (IReadOnlyList<(Band Band, double Height)> bands in pages.Lay())
        {
            PdfPage page = document.AddPage();
            page.Size = paper == PaperSize.A4 ? PageSize.A4 : PageSize.Letter;
            using XGraphics graphics = XGraphics.FromPdfPage(page);
            Sheet sheet = new(graphics);
            double y = CardPages.Margin;
            double spare = size.Height - 2 * CardPages.Margin - bands.Sum(b => b.Height);
            foreach ((Band band, double height) in bands)
            {
                // The foot of the page stands at its foot.
                band.Draw(sheet, ReferenceEquals(band, bands[^1].Band) ? y + Math.Max(0, spare) : y, height);
                y += height;
            }
        }
    }
}
