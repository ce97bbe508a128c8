using PdfSharp.Drawing;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Timelines.Pictures;
using Side = Valvewright.Files.Timelines.Pictures.Side;

namespace Valvewright.Files.Season;

/// <summary>Draws on a page of a PDF; units are 1/96 inch, as those of the other pens.</summary>
internal sealed class PdfPen(XGraphics graphics) : Pen
{
    private const double Points = 72.0 / 96;

    public override void Area(double x, double y, double width, double height, Texture texture, string colour, string words)
    {
        XRect rect = new(x * Points, y * Points, width * Points, height * Points);
        XPen line = new(Colour(colour), 0.6);
        graphics.DrawRectangle(texture == Texture.Solid ? new XSolidBrush(Colour(colour)) : XBrushes.White, rect);
        XGraphicsState state = graphics.Save();
        graphics.IntersectClip(rect);
        Fill(rect, texture, line);
        graphics.Restore(state);
        graphics.DrawRectangle(line, rect);
    }

    public override void Wipe(double x, double y, double width, double height, string colour) =>
        graphics.DrawRectangle(new XSolidBrush(Colour(colour)), x * Points, y * Points, width * Points, height * Points);

    public override void Line(double x1, double y1, double x2, double y2, double width, string colour, bool dashed)
    {
        XPen pen = new(Colour(colour), width * Points) { LineCap = dashed ? XLineCap.Flat : XLineCap.Round };
        if (dashed)
        {
            pen.DashPattern = [5 / width, 3 / width];
        }

        graphics.DrawLine(pen, x1 * Points, y1 * Points, x2 * Points, y2 * Points);
    }

    public override void Text(double x, double y, double size, bool bold, Side side, string text, string colour)
    {
        XStringFormat format = side switch
            { Side.Left => XStringFormats.BaseLineLeft, Side.Middle => XStringFormats.BaseLineCenter, _ => XStringFormats.BaseLineRight };
        graphics.DrawString(text, CardFonts.Of(size * Points, bold), new XSolidBrush(Colour(colour)), x * Points, y * Points, format);
    }

    private void Fill(XRect rect, Texture texture, XPen line)
    {
        const double Step = Spacing * Points;
        for (double x = rect.Left - rect.Height; texture == Texture.Slanted && x < rect.Right; x += Step)
        {
            graphics.DrawLine(line, x, rect.Bottom, x + rect.Height, rect.Top);
        }

        for (double x = rect.Left + (Step / 2); texture is Texture.Dots && x < rect.Right; x += Step)
        {
            for (double y = rect.Top + (Step / 2); y < rect.Bottom; y += Step)
            {
                const double Radius = DotRadius * Points;
                graphics.DrawEllipse(new XSolidBrush(line.Color), x - Radius, y - Radius, 2 * Radius, 2 * Radius);
            }
        }

        for (double y = rect.Top + (Step / 2); texture is Texture.Level or Texture.Crossed && y < rect.Bottom; y += Step)
        {
            graphics.DrawLine(line, rect.Left, y, rect.Right, y);
        }

        for (double x = rect.Left + (Step / 2); texture is Texture.Upright or Texture.Crossed && x < rect.Right; x += Step)
        {
            graphics.DrawLine(line, x, rect.Top, x, rect.Bottom);
        }
    }

    private static XColor Colour(string hex) =>
        XColor.FromArgb(Convert.ToInt32(hex[1..3], 16), Convert.ToInt32(hex[3..5], 16), Convert.ToInt32(hex[5..7], 16));
}
