using SkiaSharp;

namespace Valvewright.Files.Timelines.Pictures;

/// <summary>Draws into a bitmap, twice as fine as the units.</summary>
internal sealed class PngPen : Pen, IDisposable
{
    private const int Fineness = 2;
    private static readonly Lazy<SKTypeface> Regular = new(() => Load("Regular"));
    private static readonly Lazy<SKTypeface> Bold = new(() => Load("Bold"));
    private readonly SKSurface surface;
    private readonly SKCanvas canvas;

    public PngPen(double width, double height)
    {
        surface = SKSurface.Create(new SKImageInfo((int)Math.Ceiling(width * Fineness), (int)Math.Ceiling(height * Fineness)))
            ?? throw new InvalidOperationException($"No picture of {width} by {height} can be made.");
        canvas = surface.Canvas;
        canvas.Clear(SKColors.White);
        canvas.Scale(Fineness);
    }

    public override void Area(double x, double y, double width, double height, Texture texture, string colour, string words)
    {
        SKRect rect = SKRect.Create((float)x, (float)y, (float)width, (float)height);
        using SKPaint fill = new() { Color = texture == Texture.Solid ? SKColor.Parse(colour) : SKColors.White };
        canvas.DrawRect(rect, fill);
        using SKPaint line = new() { Color = SKColor.Parse(colour), IsStroke = true, StrokeWidth = 1.2f, IsAntialias = true };
        canvas.Save();
        canvas.ClipRect(rect);
        Fill(rect, texture, line);
        canvas.Restore();
        line.StrokeWidth = 0.8f;
        canvas.DrawRect(rect, line);
    }

    public override void Wipe(double x, double y, double width, double height, string colour)
    {
        using SKPaint fill = new() { Color = SKColor.Parse(colour) };
        canvas.DrawRect((float)x, (float)y, (float)width, (float)height, fill);
    }

    public override void Line(double x1, double y1, double x2, double y2, double width, string colour, bool dashed)
    {
        using SKPathEffect? dashes = dashed ? SKPathEffect.CreateDash([5, 3], 0) : null;
        using SKPaint line = new()
            { Color = SKColor.Parse(colour), IsStroke = true, StrokeWidth = (float)width, IsAntialias = true, PathEffect = dashes };
        canvas.DrawLine((float)x1, (float)y1, (float)x2, (float)y2, line);
    }

    public override void Text(double x, double y, double size, bool bold, Side side, string text, string colour)
    {
        using SKFont font = new(bold ? Bold.Value : Regular.Value, (float)size)
            { Subpixel = true, Hinting = SKFontHinting.None, LinearMetrics = true };
        using SKPaint ink = new() { Color = SKColor.Parse(colour), IsAntialias = true };
        SKTextAlign align = side switch { Side.Left => SKTextAlign.Left, Side.Middle => SKTextAlign.Center, _ => SKTextAlign.Right };
        canvas.DrawText(text, (float)x, (float)y, align, font, ink);
    }

    /// <summary>The picture as PNG.</summary>
    public byte[] ToPng()
    {
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    public void Dispose() => surface.Dispose();

    private void Fill(SKRect rect, Texture texture, SKPaint line)
    {
        const float Step = (float)Spacing;
        if (texture is Texture.Slanted)
        {
            for (float x = rect.Left - rect.Height; x < rect.Right; x += Step)
            {
                canvas.DrawLine(x, rect.Bottom, x + rect.Height, rect.Top, line);
            }
        }

        for (float x = rect.Left + (Step / 2); texture is Texture.Dots && x < rect.Right; x += Step)
        {
            for (float y = rect.Top + (Step / 2); y < rect.Bottom; y += Step)
            {
                using SKPaint dot = new() { Color = line.Color, IsAntialias = true };
                canvas.DrawCircle(x, y, (float)DotRadius, dot);
            }
        }

        if (texture is Texture.Level or Texture.Crossed)
        {
            for (float y = rect.Top + Step / 2; y < rect.Bottom; y += Step)
            {
                canvas.DrawLine(rect.Left, y, rect.Right, y, line);
            }
        }

        if (texture is Texture.Upright or Texture.Crossed)
        {
            for (float x = rect.Left + Step / 2; x < rect.Right; x += Step)
            {
                canvas.DrawLine(x, rect.Top, x, rect.Bottom, line);
            }
        }
    }

    private static SKTypeface Load(string weight)
    {
        using Stream stream = typeof(PngPen).Assembly.GetManifestResourceStream(
            $"Valvewright.Files.Fonts.AtkinsonHyperlegibleNext-{weight}.ttf")
            ?? throw new InvalidOperationException("The project's font is missing from this build.");
        return SKTypeface.FromStream(stream);
    }
}
