using PdfSharp.Drawing;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>Where a text stands in its place.</summary>
internal enum Side
{
    /// <summary>At the left.</summary>
    Left,

    /// <summary>In the middle.</summary>
    Middle,

    /// <summary>At the right.</summary>
    Right,
}

/// <summary>A size and weight of type.</summary>
/// <param name="Size">Points.</param>
/// <param name="Bold">Heavy.</param>
internal readonly record struct Type(double Size, bool Bold = false)
{
    /// <summary>Height of a line of text, points.</summary>
    public double Line => Size * 1.25;
}

/// <summary>Black marks on a white page: texts, rules, boxes. Points, from the upper left corner down.</summary>
internal sealed class Sheet(XGraphics graphics)
{
    /// <summary>Height of the capitals of the typeface over its size.</summary>
    private const double CapHeight = 0.67;

    private static readonly Dictionary<Type, XFont> Fonts = [];

    /// <summary>Width of a text on one line.</summary>
    public double Width(string text, Type type) => graphics.MeasureString(text, FontOf(type)).Width;

    /// <summary>Draws a text in a place of a height, its capitals in the middle of that height, a little up for the letters that
    /// hang.</summary>
    public void Text(string text, Type type, double x, double y, double width, double height, Side side = Side.Left, bool white = false)
    {
        double free = width - (side == Side.Left ? 0 : Width(text, type));
        double left = x + (side == Side.Left ? 0 : side == Side.Right ? free : free / 2);
        double baseline = y + (height + type.Size * CapHeight) / 2 - type.Size * 0.03;
        graphics.DrawString(text, FontOf(type), white ? XBrushes.White : XBrushes.Black, left, baseline, XStringFormats.BaseLineLeft);
    }

    /// <summary>The text cut with an ellipsis where it is too wide.</summary>
    public string Cut(string text, Type type, double width)
    {
        if (Width(text, type) <= width)
        {
            return text;
        }

        int[] ends = System.Globalization.StringInfo.ParseCombiningCharacters(text);
        int fits = 0;
        int tooMany = ends.Length;
        while (tooMany - fits > 1)
        {
            int middle = (fits + tooMany) / 2;
            (fits, tooMany) = Width(text[..ends[middle]].TrimEnd() + "…", type) <= width ? (middle, tooMany) : (fits, middle);
        }

        return text[..ends[fits]].TrimEnd() + "…";
    }

    /// <summary>The text in lines of a width, broken between words; a word that is too wide for a line is cut.</summary>
    public List<string> Lines(string text, Type type, double width)
    {
        List<string> lines = [];
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && Width(longer, type) > width)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        lines.Add(line);
        return [.. lines.Select(l => Cut(l.Replace('\u00a0', ' '), type, width))];
    }

    /// <summary>A level rule.</summary>
    public void Rule(double x, double y, double width, double weight) =>
        graphics.DrawRectangle(XBrushes.Black, x, y - weight / 2, width, weight);

    /// <summary>An upright rule.</summary>
    public void Upright(double x, double y, double height, double weight) =>
        graphics.DrawRectangle(XBrushes.Black, x - weight / 2, y, weight, height);

    /// <summary>A black area.</summary>
    public void Black(double x, double y, double width, double height) => graphics.DrawRectangle(XBrushes.Black, x, y, width, height);

    /// <summary>A white box with a black border, inside the given bounds.</summary>
    public void Box(double x, double y, double width, double height, double weight) =>
        graphics.DrawRectangle(
            new XPen(XColors.Black, weight), XBrushes.White, x + weight / 2, y + weight / 2, width - weight, height - weight);

    /// <summary>A black disc with a white number, or the other way round.</summary>
    public void Disc(int number, Type type, double x, double y, double diameter, bool white = false)
    {
        graphics.DrawEllipse(white ? XBrushes.White : XBrushes.Black, x, y, diameter, diameter);
        Text($"{number}", type, x, y, diameter, diameter, Side.Middle, !white);
    }

    private static XFont FontOf(Type type)
    {
        if (!Fonts.TryGetValue(type, out XFont? font))
        {
            Fonts[type] = font = CardFonts.Of(type.Size, type.Bold);
        }

        return font;
    }
}
