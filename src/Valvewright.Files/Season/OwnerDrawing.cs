using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Season;

/// <summary>Lays the owner's page out from the top down.</summary>
internal sealed class OwnerDrawing(Pen pen, OwnerContent content, OwnerPhrases say, double width, double height)
{
    private const double Margin = 46;
    private const double Small = 10.5;
    private const double SmallLine = 14;
    private const double NameWidth = 148;
    private const double RowHeight = 17;

    /// <summary>More controllers than these stand in the office's table alone.</summary>
    private const int MostRows = 12;

    /// <summary>What the charts need at least; rows of the table give way to it.</summary>
    private const double LeastChart = 110;

    private double Inner => width - (2 * Margin);

    public void Draw()
    {
        double y = Head();
        y = Visits(y + 22);
        if (content.Visits.Count > content.SeasonVisits)
        {
            y = Paragraph(y + 20, say["seedbed"]);
        }

        if (content.ProgramChanges.Count > 0)
        {
            y = Paragraph(y + 20, say.Fill("changes", ("dates", string.Join(", ", content.ProgramChanges.Select(say.Date)))));
        }

        double closing = Lines(say.Fill("closing", ("years", content.Years), ("met", say.Percent(content.Adequacy)))).Count * SmallLine;
        double below = WayBars.Height(content) + closing + 70;
        double charts = height - Margin - y - below - 96;
        double tall = Math.Max(LeastChart, charts * 0.56), low = Math.Max(LeastChart * 0.8, charts * 0.44);
        WeekCharts weeks = new(pen, content, say, Margin, Inner);
        y = Heading(y + 30, say["weeks"]);
        y = weeks.Water(y + 4, tall);
        y = Heading(y + 34, say["store"]);
        y = weeks.Store(y + 4, low);
        y = Heading(y + 32, say["ways"]);
        y = new WayBars(pen, content, say, Margin, Inner).Draw(y + 8);
        Paragraph(y + 20, say.Fill("closing", ("years", content.Years), ("met", say.Percent(content.Adequacy))));
    }

    private double Head()
    {
        string title = Typeset.Cut(say.Fill("title", ("site", CardFonts.Coverage.Printable(content.Site))), 21, Inner, bold: true);
        pen.Text(Margin, Margin + 16, 21, bold: true, Side.Left, title, Pen.Ink);
        return Paragraph(Margin + 38, say.Fill("summary", ("visits", say.Count("visits", content.SeasonVisits)),
            ("water", say.Volume(content.Ways[0].WaterM3)), ("saved", Saved())));
    }

    /// <summary>Against the same programs that no one adjusts, or against the July setting where that is the plan itself.</summary>
    private string Saved()
    {
        OwnerWay? other = content.Ways.FirstOrDefault(w => w.Kind == OwnerWayKind.OnePercent) ?? content.Ways.FirstOrDefault(
            w => w.Kind == OwnerWayKind.PeakAllYear);
        double saved = other is null || other.WaterM3 <= 0 ? 0 : 1 - (content.Ways[0].WaterM3 / other.WaterM3);
        return say.Percent(Math.Max(0, saved));
    }

    private double Visits(double y)
    {
        y = Heading(y, say["visitsHeading"]);
        double column = (Inner - NameWidth) / Math.Max(4, content.Visits.Count);
        double size = Math.Min(Small, column / 3.9);
        double x(int visit) => Margin + NameWidth + (column * (visit + 0.5));
        y += 16;
        for (int v = 0; v < content.Visits.Count; v++)
        {
            pen.Text(x(v), y, size, bold: true, Side.Middle, say.Date(content.Visits[v].Date), Pen.Ink);
        }

        int rows = content.Controllers.Count > MostRows ? MostRows - 1 : content.Controllers.Count;
        for (int c = 0; c < rows; c++)
        {
            pen.Line(Margin, y + 5, Margin + Inner, y + 5, 0.6, Pen.Faint, dashed: false);
            y += RowHeight;
            pen.Text(Margin, y, Small, bold: false, Side.Left,
                Typeset.Cut(CardFonts.Coverage.Printable(content.Controllers[c]), Small, NameWidth - 6), Pen.Ink);
            for (int v = 0; v < content.Visits.Count; v++)
            {
                string text = content.Visits[v].Percents[c] is { } percent ? say.Setting(percent) : "–";
                pen.Text(x(v), y, size, bold: false, Side.Middle, text, Pen.Ink);
            }
        }

        if (rows < content.Controllers.Count)
        {
            y += RowHeight;
            pen.Text(Margin, y, Small, bold: false, Side.Left, say.Fill("more", ("n", content.Controllers.Count - rows)), Pen.Ink);
        }

        return y;
    }

    private double Heading(double y, string text)
    {
        pen.Text(Margin, y, 13, bold: true, Side.Left, Typeset.Cut(text, 13, Inner, bold: true), Pen.Ink);
        return y;
    }

    private double Paragraph(double y, string text)
    {
        foreach (string line in Lines(text))
        {
            pen.Text(Margin, y, Small, bold: false, Side.Left, line, Pen.Ink);
            y += SmallLine;
        }

        return y - SmallLine;
    }

    private List<string> Lines(string text) => Typeset.Lines(text, Small, Inner);
}
