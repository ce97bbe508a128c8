using Valvewright.Engine.Season;
using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Season;

/// <summary>The two charts over the weeks of a year: water, and the store in the soil.</summary>
internal sealed class WeekCharts(Pen pen, OwnerContent content, OwnerPhrases say, double left, double width)
{
    private const double AxisWidth = 40;
    private const double Label = 9;
    private const double LegendHeight = 18;
    private const int CommonYear = 2001;
    private const int DaysInAYear = 365;

    private readonly ListOf<WeekOfWater> weeks = content.Year.Weeks;
    private readonly LocalDate begins = content.Year.Begins.InYear(CommonYear);

    private double Left => left + AxisWidth;

    private double Wide => width - AxisWidth;

    /// <summary>Rain and water given as bars, what the plants use as a line.</summary>
    /// <returns>The lower end of the chart.</returns>
    public double Water(double y, double height)
    {
        double key = Left;
        key = Bar(key, y + 12, Texture.Slanted, say["rain"]);
        key = Bar(key, y + 12, Texture.Solid, say["given"]);
        Stroke(key, y + 12, 2.4, Pen.Alarm, say["need"]);
        double top = y + LegendHeight + 26, bottom = y + height;
        double most = weeks.Max(w => Math.Max(w.NeedMm, Math.Max(w.RainMm, w.WaterMm)));
        double step = Step(say.Depth(most) / 4);
        double full = Math.Max(1, Math.Ceiling(say.Depth(most) / step)) * step;
        double at(double mm) => bottom - ((bottom - top) * say.Depth(mm) / full);
        for (double value = 0; value <= full + (step / 2); value += step)
        {
            double level = bottom - ((bottom - top) * value / full);
            Level(level, $"{say.Number(Math.Round(value, 3))}");
        }

        pen.Text(Left + Wide, y + 12, Label + 0.5, bold: false, Side.Right, say.Fill("perWeek", ("unit", say.DepthUnit)), Pen.Ink);
        Months(bottom);
        double column = Wide / weeks.Count;
        for (int w = 0; w < weeks.Count; w++)
        {
            double x = Left + (w * column);
            BarAt(x + 0.8, at(weeks[w].RainMm), (column / 2) - 1, bottom, Texture.Slanted,
                $"{say["rain"]}: {OwnerPhrases.Decimal(say.Depth(weeks[w].RainMm), 1)} {say.DepthUnit}");
            BarAt(x + (column / 2), at(weeks[w].WaterMm), (column / 2) - 1, bottom, Texture.Solid,
                $"{say["given"]}: {OwnerPhrases.Decimal(say.Depth(weeks[w].WaterMm), 1)} {say.DepthUnit}");
        }

        Curve(w => at(w.NeedMm), 2.4, Pen.Alarm);
        VisitMarks(top, bottom);
        return bottom + 14;
    }

    /// <summary>How full the store is: the mean, and what one in ten is below.</summary>
    /// <returns>The lower end of the chart.</returns>
    public double Store(double y, double height)
    {
        double key = Stroke(Left, y + 12, 2.6, Pen.Ink, say["storeMean"]);
        Stroke(key, y + 12, 0.9, Pen.Ink, say["storeDry"]);
        double top = y + LegendHeight + 26, bottom = y + height;
        double lowest = Math.Min(-25, Math.Floor(weeks.Min(w => w.DryStorePercent) / 25) * 25);
        double at(double percent) => bottom - ((bottom - top) * (percent - lowest) / (100 - lowest));
        pen.Wipe(Left, at(0), Wide, bottom - at(0), Pen.Wash);
        foreach (double level in (double[])[0, 50, 100])
        {
            Level(at(level), say.Percent(level / 100));
        }

        Months(bottom);
        pen.Line(Left, at(0), Left + Wide, at(0), 1.2, Pen.Alarm, dashed: false);
        pen.Text(Left + Wide - 4, Math.Min(bottom - 3, at(0) + 11), Label, bold: false, Side.Right, say["lack"], Pen.Ink);
        Curve(w => at(w.DryStorePercent), 0.9, Pen.Ink);
        Curve(w => at(w.StorePercent), 2.6, Pen.Ink);
        VisitMarks(top, bottom);
        return bottom + 14;
    }

    /// <summary>Steps of an axis: 1, 2 or 5 times a power of ten, so that there are about as many as asked for.</summary>
    internal static double Step(double atLeast)
    {
        if (!(atLeast > 0))
        {
            return 1;
        }

        double power = Math.Pow(10, Math.Floor(Math.Log10(atLeast)));
        return power * (atLeast <= power ? 1 : atLeast <= 2 * power ? 2 : atLeast <= 5 * power ? 5 : 10);
    }

    private void BarAt(double x, double top, double wide, double bottom, Texture texture, string words)
    {
        if (bottom - top > 0.3)
        {
            pen.Area(x, top, wide, bottom - top, texture, Pen.Ink, words);
        }
    }

    private void Curve(Func<WeekOfWater, double> at, double weight, string colour)
    {
        double column = Wide / weeks.Count;
        for (int w = 1; w < weeks.Count; w++)
        {
            pen.Line(Left + ((w - 0.5) * column), at(weeks[w - 1]), Left + ((w + 0.5) * column), at(weeks[w]), weight, colour,
                dashed: false);
        }
    }

    private void Level(double y, string text)
    {
        pen.Line(Left, y, Left + Wide, y, 0.5, Pen.Faint, dashed: false);
        pen.Text(Left - 5, y + 3, Label, bold: false, Side.Right, text, Pen.Ink);
    }

    private void Months(double bottom)
    {
        pen.Line(Left, bottom, Left + Wide, bottom, 1, Pen.Ink, dashed: false);
        for (int month = 0; month < 12; month++)
        {
            LocalDate first = begins.PlusMonths(month);
            double x = X(first), middle = (x + X(first.PlusMonths(1))) / 2;
            pen.Line(x, bottom, x, bottom + 4, 0.8, Pen.Ink, dashed: false);
            pen.Text(middle, bottom + 12, Label, bold: false, Side.Middle, say.Month(first.Month), Pen.Ink);
        }
    }

    private void VisitMarks(double top, double bottom)
    {
        // A date that would run into its neighbour stands one line higher; one that has no room there either is left out.
        double[] free = [double.NegativeInfinity, double.NegativeInfinity];
        foreach ((double x, string text) in content.Visits.Select(v => (X(v.Date.InYear(CommonYear)), say.Date(v.Date)))
            .OrderBy(v => v.Item1))
        {
            pen.Line(x, top - 4, x, bottom, 0.9, Pen.Ink, dashed: true);
            double half = Typeset.Width(text, Label) / 2;
            int row = Array.FindIndex(free, f => x - half > f);
            if (row >= 0)
            {
                pen.Text(x, top - 7 - (row * 11), Label, bold: true, Side.Middle, text, Pen.Ink);
                free[row] = x + half + 3;
            }
        }
    }

    private double X(LocalDate date)
    {
        int day = Period.DaysBetween(begins, date);
        return Left + (Wide * (day < 0 ? day + DaysInAYear : day) / DaysInAYear);
    }

    private double Bar(double x, double y, Texture texture, string text)
    {
        pen.Area(x, y - 8, 12, 9, texture, Pen.Ink, text);
        pen.Text(x + 16, y, Label + 0.5, bold: false, Side.Left, text, Pen.Ink);
        return x + 34 + Typeset.Width(text, Label + 0.5);
    }

    private double Stroke(double x, double y, double weight, string colour, string text)
    {
        pen.Line(x, y - 3, x + 20, y - 3, weight, colour, dashed: false);
        pen.Text(x + 24, y, Label + 0.5, bold: false, Side.Left, text, Pen.Ink);
        return x + 44 + Typeset.Width(text, Label + 0.5);
    }
}
