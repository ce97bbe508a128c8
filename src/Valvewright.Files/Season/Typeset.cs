using SkiaSharp;

namespace Valvewright.Files.Season;

/// <summary>Breaks and cuts texts in the project's typeface, the same for every pen.</summary>
internal static class Typeset
{
    private static readonly Lazy<SKTypeface> Regular = new(() => Load("Regular"));
    private static readonly Lazy<SKTypeface> Bold = new(() => Load("Bold"));

    /// <summary>Width of a text on one line, in the unit of its size.</summary>
    public static double Width(string text, double size, bool bold = false)
    {
        using SKFont font = new(bold ? Bold.Value : Regular.Value, (float)size)
            { Subpixel = true, Hinting = SKFontHinting.None, LinearMetrics = true };
        return font.MeasureText(text);
    }

    /// <summary>The text in lines of a width, broken between words.</summary>
    public static List<string> Lines(string text, double size, double width)
    {
        List<string> lines = [];
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && Width(longer, size) > width)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        lines.Add(line);
        return [.. lines.Select(l => Cut(l, size, width))];
    }

    /// <summary>The text cut with an ellipsis where it is too wide.</summary>
    public static string Cut(string text, double size, double width, bool bold = false)
    {
        string cut = text;
        while (cut.Length > 1 && Width(cut, size, bold) > width)
        {
            int end = char.IsLowSurrogate(cut[^1]) ? 2 : 1;
            cut = (cut.EndsWith('…') ? cut[..^1] : cut)[..^Math.Min(end, cut.Length - 1)].TrimEnd() + "…";
        }

        return cut;
    }

    private static SKTypeface Load(string weight)
    {
        using Stream stream = typeof(Typeset).Assembly.GetManifestResourceStream(
            $"Valvewright.Files.Fonts.AtkinsonHyperlegibleNext-{weight}.ttf")
            ?? throw new InvalidOperationException("The project's font is missing from this build.");
        return SKTypeface.FromStream(stream);
    }
}
