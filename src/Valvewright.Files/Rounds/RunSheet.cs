using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Season;
using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Rounds;

/// <summary>A point on the picture of a round.</summary>
/// <param name="Mark">Its number; empty where people start or end.</param>
/// <param name="Name">Its name.</param>
/// <param name="Place">Where it is.</param>
/// <param name="IsFault">Whether a fault waits there.</param>
public sealed record RunPoint(string Mark, string Name, Place Place, bool IsFault);

/// <summary>A line of a run sheet: one thing to do, to be ticked.</summary>
/// <param name="What">What to do.</param>
/// <param name="Minutes">How long it takes, in words.</param>
public sealed record RunTick(string What, string Minutes);

/// <summary>A stop of a run sheet.</summary>
/// <param name="Mark">Its number.</param>
/// <param name="Time">When.</param>
/// <param name="Name">The site.</param>
/// <param name="Ticks">What to do there.</param>
public sealed record RunStop(string Mark, string Time, string Name, ListOf<RunTick> Ticks);

/// <summary>One person's day, in words, for paper.</summary>
/// <param name="Title">Person and date.</param>
/// <param name="Summary">Stops, distance, when to leave and when back.</param>
/// <param name="Stops">The stops.</param>
/// <param name="Points">The way: start, stops, end.</param>
/// <param name="Note">What the picture is and is not.</param>
public sealed record RunDay(string Title, string Summary, ListOf<RunStop> Stops, ListOf<RunPoint> Points, string Note);

/// <summary>Run sheets for paper, one or more pages a person and day, and the picture of a day.</summary>
public static class RunSheet
{
    private const double Edge = 48;
    private const double PictureHeight = 300;
    private const double PictureWidth = 720;
    private const double RowHeight = 20;

    /// <summary>All days as one PDF; the same days give the same bytes.</summary>
    public static byte[] Pdf(ListOf<RunDay> days, PaperSize paper, string title, string language)
    {
        ArgumentNullException.ThrowIfNull(days);
        lock (CardPdf.OneAtATime)
        {
            using PdfDocument document = new();
            document.Info.Title = CardFonts.Coverage.Printable(title);
            document.Info.Creator = "Valvewright";
            document.Language = language;
            foreach (RunDay day in days)
            {
                Write(document, day, paper);
            }

            using MemoryStream stream = new();
            document.Save(stream);
            return SteadyBytes.Of(stream.ToArray());
        }
    }

    /// <summary>The picture of a day as an SVG document: straight lines between coordinates, no map.</summary>
    public static string Svg(RunDay day)
    {
        ArgumentNullException.ThrowIfNull(day);
        SvgPen pen = new(PictureWidth, PictureWidth * 2 / 3 + 80, day.Title);
        pen.Text(Edge, 30, 18, bold: true, Side.Left, day.Title, Pen.Ink);
        pen.Text(Edge, 50, 12, bold: false, Side.Left, day.Summary, Pen.Ink);
        new RoundPicture(pen, Edge, 64, PictureWidth - (2 * Edge), PictureWidth * 2 / 3 - 24).Draw(day.Points);
        pen.Text(Edge, PictureWidth * 2 / 3 + 64, 11, bold: false, Side.Left, day.Note, Pen.Ink);
        return pen.ToString();
    }

    private static void Write(PdfDocument document, RunDay day, PaperSize paper)
    {
        (double width, double height) = paper == PaperSize.A4 ? (793.7, 1122.5) : (816.0, 1056.0);
        Queue<RunStop> stops = new(day.Stops);
        bool isFirst = true;
        while (isFirst || stops.Count > 0)
        {
            PdfPage page = document.AddPage();
            page.Size = paper == PaperSize.A4 ? PageSize.A4 : PageSize.Letter;
            using XGraphics graphics = XGraphics.FromPdfPage(page);
            PdfPen pen = new(graphics);
            Say(pen, Edge, 64, 22, true, Side.Left, day.Title);
            Say(pen, Edge, 88, 13, false, Side.Left, day.Summary);
            pen.Line(Edge, 100, width - Edge, 100, 2.5, Pen.Ink, dashed: false);
            double bottom = height - Edge - (isFirst ? PictureHeight + 30 : 0), y = 100;
            do
            {
                if (stops.TryDequeue(out RunStop? stop))
                {
                    y = Write(pen, stop, y, width);
                }
            }
            while (stops.TryPeek(out RunStop? next) && y + ((next.Ticks.Count + 2) * RowHeight) <= bottom);
            if (isFirst)
            {
                double top = Math.Max(y + 20, bottom);
                new RoundPicture(pen, Edge, top, width - (2 * Edge), height - Edge - 20 - top).Draw(
                    day.Points.Select(p => p with { Name = CardFonts.Coverage.Printable(p.Name) }).ToListOf());
                Say(pen, Edge, height - Edge, 10, false, Side.Left, day.Note);
            }

            isFirst = false;
        }
    }

    private static double Write(PdfPen pen, RunStop stop, double y, double width)
    {
        y += RowHeight + 6;
        Say(pen, Edge, y, 14, true, Side.Left, stop.Time);
        Say(pen, Edge + 96, y, 14, true, Side.Middle, stop.Mark);
        Say(pen, Edge + 120, y, 14, true, Side.Left, stop.Name);
        foreach (RunTick tick in stop.Ticks)
        {
            y += RowHeight;
            pen.Area(Edge + 120, y - 11, 12, 12, Texture.Open, Pen.Ink, "");
            Say(pen, Edge + 142, y, 12, false, Side.Left, tick.What);
            Say(pen, width - Edge, y, 12, false, Side.Right, tick.Minutes);
        }

        pen.Line(Edge, y + 8, width - Edge, y + 8, 0.8, Pen.Ink, dashed: false);
        return y + 8;
    }

    private static void Say(PdfPen pen, double x, double y, double size, bool bold, Side side, string text) =>
        pen.Text(x, y, size, bold, side, CardFonts.Coverage.Printable(text), Pen.Ink);
}
