using Valvewright.Files.Timelines.Pictures;

namespace Valvewright.Files.Rounds;

/// <summary>The way of a round between coordinates, north up, both axes to one scale.</summary>
internal sealed class RoundPicture(Pen pen, double left, double top, double width, double height)
{
    private const double Inset = 36;
    private const double Mark = 20;

    /// <summary>Draws the points in order, with lines between them.</summary>
    public void Draw(ListOf<RunPoint> points)
    {
        double middle = points.Average(p => p.Place.LatitudeDeg);
        double squeeze = Math.Cos(middle * Math.PI / 180), first = points[0].Place.LongitudeDeg;
        (double East, double North)[] flat =
            [.. points.Select(p => (Math.IEEERemainder(p.Place.LongitudeDeg - first, 360) * squeeze, p.Place.LatitudeDeg))];
        (double west, double east) = (flat.Min(f => f.East), flat.Max(f => f.East));
        (double south, double north) = (flat.Min(f => f.North), flat.Max(f => f.North));
        double scale = Math.Min((width - (4 * Inset)) / Math.Max(east - west, 1e-6), (height - (2 * Inset)) / Math.Max(north - south,
            1e-6));
        (double X, double Y)[] drawn = [.. flat.Select(f => (
            left + (width / 2) + (scale * (f.East - ((east + west) / 2))),
                top + (height / 2) - (scale * (f.North - ((north + south) / 2)))))];
        for (int i = 0; i + 1 < drawn.Length; i++)
        {
            Leg(drawn[i], drawn[i + 1]);
        }

        for (int i = points.Count - 1; i >= 0; i--)
        {
            Stop(points[i], drawn[i], drawn.Length - 1 == i && points[i].Place == points[0].Place && i > 0);
        }

        pen.Line(left + width - 16, top + 40, left + width - 16, top + 16, 2, Pen.Ink, dashed: false);
        pen.Line(left + width - 16, top + 16, left + width - 21, top + 24, 2, Pen.Ink, dashed: false);
        pen.Line(left + width - 16, top + 16, left + width - 11, top + 24, 2, Pen.Ink, dashed: false);
        pen.Text(left + width - 16, top + 54, 12, bold: true, Side.Middle, "N", Pen.Ink);
    }

    /// <summary>A line with its direction in the middle.</summary>
    private void Leg((double X, double Y) from, (double X, double Y) to)
    {
        pen.Line(from.X, from.Y, to.X, to.Y, 2, Pen.Ink, dashed: false);
        double length = Math.Sqrt(((to.X - from.X) * (to.X - from.X)) + ((to.Y - from.Y) * (to.Y - from.Y)));
        if (length < 3 * Mark)
        {
            return;
        }

        (double alongX, double alongY) = ((to.X - from.X) / length, (to.Y - from.Y) / length);
        (double x, double y) = ((from.X + to.X) / 2, (from.Y + to.Y) / 2);
        foreach (int side in new[] { -1, 1 })
        {
            pen.Line(x, y, x - (10 * alongX) + (side * 6 * alongY), y - (10 * alongY) - (side * 6 * alongX), 2, Pen.Ink, dashed: false);
        }
    }

    private void Stop(RunPoint point, (double X, double Y) at, bool isAgain)
    {
        if (isAgain)
        {
            return;
        }

        string color = point.IsFault ? Pen.Alarm : Pen.Ink;
        bool isYard = point.Mark.Length == 0;
        if (point.IsFault)
        {
            pen.Area(at.X - (Mark / 2) - 4, at.Y - (Mark / 2) - 4, Mark + 8, Mark + 8, Texture.Open, color, point.Name);
        }

        pen.Area(at.X - (Mark / 2), at.Y - (Mark / 2), Mark, Mark, isYard ? Texture.Open : Texture.Solid, color, point.Name);
        pen.Text(at.X, at.Y + 5, 13, bold: true, Side.Middle, point.Mark, "#ffffff");
        pen.Text(at.X + Mark, at.Y + 5, 12, bold: true, Side.Left, point.Name, Pen.Ink);
    }
}
