using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Season;
using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Tables;

/// <summary>A row of a table on paper.</summary>
/// <param name="Cells">One cell a column.</param>
/// <param name="Remark">What is said under the row; empty for nothing.</param>
public sealed record PaperRow(ListOf<string> Cells, string Remark);

/// <summary>A table on paper.</summary>
/// <param name="Heading">Its heading; empty for none.</param>
/// <param name="Columns">Headings of the columns; one that begins with <c>&gt;</c> is a column of numbers. The first takes
/// what the others leave.</param>
/// <param name="Rows">The rows.</param>
public sealed record PaperTable(string Heading, ListOf<string> Columns, ListOf<PaperRow> Rows);

/// <summary>Tables for paper, in words.</summary>
/// <param name="Title">The title.</param>
/// <param name="Tables">The tables.</param>
/// <param name="Notes">What is said under them.</param>
public sealed record PaperOfTables(string Title, ListOf<PaperTable> Tables, ListOf<string> Notes);

/// <summary>Tables as a PDF: a row is never parted between two pages, and each page repeats the headings of the columns.</summary>
public sealed class TablePaper
{
    private const double Edge = 48;
    private const double LineHeight = 17;
    private const double Size = 12;
    private const double NumberWidth = 82;
    private const double WordWidth = 48;
    private readonly PdfDocument document;
    private readonly PaperSize paper;
    private readonly double width;
    private readonly double height;
    private XGraphics? graphics;
    private PdfPen? pen;
    private double y;

    private TablePaper(PdfDocument document, PaperSize paper) =>
        (this.document, this.paper, (width, height)) = (document, paper, paper == PaperSize.A4 ? (793.7, 1122.5) : (816.0, 1056.0));

    /// <summary>Draws them; the same words give the same bytes.</summary>
    public static byte[] Pdf(PaperOfTables tables, PaperSize paper, string language)
    {
        ArgumentNullException.ThrowIfNull(tables);
        lock (CardPdf.OneAtATime)
        {
            using PdfDocument document = new();
            TablePaper own = new(document, paper);
            document.Info.Title = CardFonts.Coverage.Printable(tables.Title);
            document.Info.Creator = "Valvewright";
            document.Language = language;
            own.Draw(tables);
            own.graphics?.Dispose();
            using MemoryStream stream = new();
            document.Save(stream);
            return SteadyBytes.Of(stream.ToArray());
        }
    }

    private void Draw(PaperOfTables tables)
    {
        NewPage();
        Say(Edge, y, 22, true, Side.Left, tables.Title);
        y += 12;
        foreach (PaperTable table in tables.Tables)
        {
            Draw(table);
        }

        y += LineHeight;
        foreach (string line in tables.Notes.SelectMany(n => Lines(n, width - (2 * Edge))))
        {
            Room(LineHeight);
            y += LineHeight;
            Say(Edge, y, Size - 1, false, Side.Left, line);
        }
    }

    private void Draw(PaperTable table)
    {
        bool[] isNumber = [.. table.Columns.Select(c => c.StartsWith('>'))];
        double[] widths = [.. isNumber.Select(n => n ? NumberWidth : WordWidth)];
        widths[0] = width - (2 * Edge) - widths.Skip(1).Sum();
        Room(6 * LineHeight);
        if (table.Heading.Length > 0)
        {
            y += 2 * LineHeight;
            Say(Edge, y, 15, true, Side.Left, table.Heading);
        }

        Row([.. table.Columns.Select(c => c.TrimStart('>'))], isNumber, widths, bold: true);
        foreach (PaperRow row in table.Rows)
        {
            List<string> remark = row.Remark.Length == 0 ? [] : Lines(row.Remark, width - (2 * Edge) - 12);
            if (Room((1 + remark.Count) * LineHeight))
            {
                Row([.. table.Columns.Select(c => c.TrimStart('>'))], isNumber, widths, bold: true);
            }

            Row(row.Cells, isNumber, widths, bold: false);
            foreach (string line in remark)
            {
                y += LineHeight;
                Say(Edge + 12, y, Size - 1, false, Side.Left, line);
            }

            pen!.Line(Edge, y + 5, width - Edge, y + 5, 0.6, Pen.Ink, dashed: false);
            y += 3;
        }
    }

    private void Row(ListOf<string> cells, bool[] isNumber, double[] widths, bool bold)
    {
        y += LineHeight;
        double x = Edge;
        for (int i = 0; i < cells.Count; i++)
        {
            double room = widths[i];
            string text = Typeset.Cut(CardFonts.Coverage.Printable(cells[i]), Size, room - 8, bold);
            pen!.Text(isNumber[i] ? x + room : x, y, Size, bold, isNumber[i] ? Side.Right : Side.Left, text, Pen.Ink);
            x += room;
        }
    }

    /// <summary>Turns the page where so much does not fit any more; says whether it did.</summary>
    private bool Room(double needed)
    {
        if (y + needed <= height - Edge)
        {
            return false;
        }

        NewPage();
        return true;
    }

    private void NewPage()
    {
        graphics?.Dispose();
        PdfPage page = document.AddPage();
        page.Size = paper == PaperSize.A4 ? PageSize.A4 : PageSize.Letter;
        graphics = XGraphics.FromPdfPage(page);
        pen = new PdfPen(graphics);
        y = Edge + 16;
    }

    private static List<string> Lines(string text, double room) => Typeset.Lines(CardFonts.Coverage.Printable(text), Size - 1, room);

    private void Say(double x, double at, double size, bool bold, Side side, string text) =>
        pen!.Text(x, at, size, bold, side, CardFonts.Coverage.Printable(text), Pen.Ink);
}
