using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Texts;
using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Season;

/// <summary>One page about a site's year for anyone who owns it: what is set when, what the plants need and get, and what that
/// saves.</summary>
public static class OwnerPage
{
    /// <summary>Units of the pens, 1/96 inch, in a point.</summary>
    private const double UnitsInAPoint = 96.0 / 72;

    /// <summary>As a PDF of one page; the same content gives the same bytes.</summary>
    public static byte[] Pdf(OwnerContent content, PaperSize paper, Language language)
    {
        ArgumentNullException.ThrowIfNull(content);
        lock (CardPdf.OneAtATime)
        {
            using PdfDocument document = new();
            OwnerPhrases say = new(language, content.Units);
            document.Info.Title = say.Fill("title", ("site", CardFonts.Coverage.Printable(content.Site)));
            document.Info.Creator = "Valvewright";
            document.Language = language == Language.Spanish ? "es" : "en";
            PdfPage page = document.AddPage();
            page.Size = paper == PaperSize.A4 ? PageSize.A4 : PageSize.Letter;
            using (XGraphics graphics = XGraphics.FromPdfPage(page))
            {
                (double width, double height) = SizeOf(paper);
                new OwnerDrawing(new PdfPen(graphics), content, say, width, height).Draw();
            }

            using MemoryStream stream = new();
            document.Save(stream);
            return SteadyBytes.Of(stream.ToArray());
        }
    }

    /// <summary>As an SVG document.</summary>
    public static string Svg(OwnerContent content, PaperSize paper, Language language)
    {
        ArgumentNullException.ThrowIfNull(content);
        OwnerPhrases say = new(language, content.Units);
        (double width, double height) = SizeOf(paper);
        SvgPen pen = new(width, height, say.Fill("title", ("site", content.Site)));
        new OwnerDrawing(pen, content, say, width, height).Draw();
        return pen.ToString();
    }

    /// <summary>As a PNG file.</summary>
    public static byte[] Png(OwnerContent content, PaperSize paper, Language language)
    {
        ArgumentNullException.ThrowIfNull(content);
        (double width, double height) = SizeOf(paper);
        using PngPen pen = new(width, height);
        new OwnerDrawing(pen, content, new OwnerPhrases(language, content.Units), width, height).Draw();
        return pen.ToPng();
    }

    private static (double Width, double Height) SizeOf(PaperSize paper)
    {
        XSize size = PageSizeConverter.ToSize(paper == PaperSize.A4 ? PageSize.A4 : PageSize.Letter);
        return (size.Width * UnitsInAPoint, size.Height * UnitsInAPoint);
    }
}
