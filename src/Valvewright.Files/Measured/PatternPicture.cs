using System.Globalization;
using Valvewright.Engine.Audit;
using Valvewright.Engine.Values;
using Valvewright.Files.Timelines.Pictures;

namespace Valvewright.Files.Measured;

/// <summary>The pattern of a catch-can test as an SVG picture: cans with their share of the mean, contours at quarters of the
/// mean.</summary>
public static class PatternPicture
{
    private const double Width = 720;
    private const double Margin = 48;
    private static readonly ListOf<double> Levels = [0.5, 0.75, 1.0, 1.25, 1.5];

    /// <summary>Draws the picture.</summary>
    /// <param name="title">What it shows.</param>
    /// <param name="audit">An audit whose cans have places.</param>
    /// <param name="legend">What its lines and numbers mean.</param>
    /// <exception cref="ArgumentException">The cans have no places that make a pattern.</exception>
    public static string Svg(string title, CatchCanAudit audit, string legend)
    {
        ArgumentNullException.ThrowIfNull(audit);
        ListOf<double> shares = audit.Cans.Readings.Select(r => r / audit.Cans.Mean).ToListOf();
        PatternMap map = new(audit.Places, shares);
        double scale = (Width - (2 * Margin)) / Math.Max(map.MaxX - map.MinX, map.MaxY - map.MinY);
        double height = (scale * (map.MaxY - map.MinY)) + (2 * Margin) + 56;
        double X(double x) => Margin + (scale * (x - map.MinX));
        double Y(double y) => height - Margin - (scale * (y - map.MinY));
        SvgPen pen = new(Width, height, title);
        pen.Text(Margin, 28, 16, bold: true, Side.Left, title, Pen.Ink);
        pen.Text(Margin, 46, 10.5, bold: false, Side.Left, legend, Pen.Ink);
        foreach (ContourLine line in map.Contours(Levels))
        {
            bool isDry = line.Level <= 0.75;
            pen.Line(X(line.From.XM), Y(line.From.YM), X(line.To.XM), Y(line.To.YM), isDry ? 2 : 1, isDry ? Pen.Alarm : Pen.Ink,
                dashed: line.Level == 1);
        }

        for (int i = 0; i < shares.Count; i++)
        {
            (double x, double y) = (X(audit.Places[i].XM), Y(audit.Places[i].YM));
            string percent = (100 * shares[i]).ToString("0", CultureInfo.InvariantCulture);
            pen.Wipe(x - 12, y - 9, 24, 14, "#ffffff");
            pen.Text(x, y + 2, 11, bold: shares[i] < SprinklerRepair.WorstShare, Side.Middle, percent,
                shares[i] < SprinklerRepair.WorstShare ? Pen.Alarm : Pen.Ink);
        }

        return pen.ToString();
    }
}
