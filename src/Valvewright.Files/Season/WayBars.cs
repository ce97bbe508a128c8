using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Season;

/// <summary>Bars of a year's water: this plan beside other ways of watering, and the least possible.</summary>
internal sealed class WayBars(Pen pen, OwnerContent content, OwnerPhrases say, double left, double width)
{
    private const double Row = 21;
    private const double Size = 10.5;
    private const double NameWidth = 210;
    private const double FigureWidth = 190;

    /// <summary>What the bars take.</summary>
    public static double Height(OwnerContent content) => Row * (content.Ways.Count + 1);

    /// <returns>The lower end of the bars.</returns>
    public double Draw(double y)
    {
        double most = Math.Max(content.LeastM3, content.Ways.Max(w => w.WaterM3));
        foreach (OwnerWay way in content.Ways)
        {
            bool ours = way.Kind == OwnerWayKind.ThisPlan;
            One(y, Name(way.Kind), way.WaterM3, most, ours ? Texture.Solid : Texture.Slanted, ours,
                say.Fill("figure", ("water", say.Volume(way.WaterM3)), ("met", say.Percent(way.UseMet))));
            y += Row;
        }

        One(y, say["least"], content.LeastM3, most, Texture.Open, false, say.Volume(content.LeastM3));
        return y + Row;
    }

    private void One(double y, string name, double water, double most, Texture texture, bool bold, string figure)
    {
        double room = width - NameWidth - FigureWidth, bar = most > 0 ? room * water / most : 0;
        pen.Text(left, y + 13, Size, bold, Side.Left, Typeset.Cut(name, Size, NameWidth - 8, bold), Pen.Ink);
        if (bar > 0.3)
        {
            pen.Area(left + NameWidth, y + 3, bar, Row - 7, texture, Pen.Ink, name);
        }

        pen.Text(left + NameWidth + bar + 7, y + 13, Size, bold, Side.Left, figure, Pen.Ink);
    }

    private string Name(OwnerWayKind kind) => kind switch
    {
        OwnerWayKind.ThisPlan => say.Count("thisPlan", content.SeasonVisits),
        OwnerWayKind.OnePercent => say["onePercent"],
        OwnerWayKind.PeakAllYear => say["peakAllYear"],
        OwnerWayKind.EveryMonth => say["everyMonth"],
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
    };
}
