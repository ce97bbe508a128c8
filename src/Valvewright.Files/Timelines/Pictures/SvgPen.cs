using System.Globalization;
using System.Text;

namespace Valvewright.Files.Timelines.Pictures;

/// <summary>Draws into an SVG document.</summary>
internal sealed class SvgPen : Pen
{
    private const string Font = "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', Verdana, sans-serif";
    private readonly StringBuilder body = new();
    private readonly double width;
    private readonly double height;
    private readonly string title;
    private readonly SortedSet<string> patterns = new(StringComparer.Ordinal);

    public SvgPen(double width, double height, string title)
    {
        this.width = width;
        this.height = height;
        this.title = title;
    }

    public override void Area(double x, double y, double width, double height, Texture texture, string colour, string words)
    {
        string fill = texture switch
        {
            Texture.Solid => colour,
            Texture.Open => "#ffffff",
            _ => $"url(#{Pattern(texture, colour)})",
        };
        body.Append(
            $"<rect x=\"{N(x)}\" y=\"{N(y)}\" width=\"{N(width)}\" height=\"{N(height)}\" fill=\"{fill}\" stroke=\"{colour}\" stroke-width=\"0.8\"><title>{Safe(words)}</title></rect>\n");
    }

    public override void Wipe(double x, double y, double width, double height, string colour) =>
        body.Append($"<rect x=\"{N(x)}\" y=\"{N(y)}\" width=\"{N(width)}\" height=\"{N(height)}\" fill=\"{colour}\"/>\n");

    public override void Line(double x1, double y1, double x2, double y2, double width, string colour, bool dashed) =>
        body.Append(
            $"<path d=\"M{N(x1)} {N(y1)}L{N(x2)} {N(y2)}\" stroke=\"{colour}\" stroke-width=\"{N(width)}\"{(dashed ? " stroke-dasharray=\"5 3\"" : "")} fill=\"none\"/>\n");

    public override void Text(double x, double y, double size, bool bold, Side side, string text, string colour)
    {
        string anchor = side switch { Side.Left => "", Side.Middle => " text-anchor=\"middle\"", _ => " text-anchor=\"end\"" };
        body.Append(
            $"<text x=\"{N(x)}\" y=\"{N(y)}\" font-size=\"{N(size)}\"{(bold ? " font-weight=\"bold\"" : "")}{anchor} fill=\"{colour}\">{Safe(text)}</text>\n");
    }

    /// <inheritdoc/>
    public override string ToString() =>
        $"""
        <?xml version="1.0" encoding="UTF-8"?>
        <svg xmlns="http://www.w3.org/2000/svg" width="{N(width)}" height="{N(height)}" viewBox="0 0 {N(width)} {N(height)}" font-family="{Font}" role="img">
        <title>{Safe(title)}</title>
        <defs>
        {string.Join('\n', patterns)}
        </defs>
        <rect width="{N(width)}" height="{N(height)}" fill="#ffffff"/>
        {body}</svg>

        """.ReplaceLineEndings("\n");

    private string Pattern(Texture texture, string colour)
    {
        string name = $"{texture}-{colour[1..]}".ToLowerInvariant();
        string s = N(Spacing);
        string dot =
            $"M{N((Spacing / 2) - DotRadius)} {N(Spacing / 2)}a{N(DotRadius)} {N(DotRadius)} 0 1 0 {N(2 * DotRadius)} 0a{N(DotRadius)} {N(DotRadius)} 0 1 0 {N(-2 * DotRadius)} 0";
        string lines = texture switch
        {
            Texture.Slanted => $"M0 {s}L{s} 0M-1 1L1 -1M{N(Spacing - 1)} {N(Spacing + 1)}L{N(Spacing + 1)} {N(Spacing - 1)}",
            Texture.Dots => dot,
            Texture.Level => $"M0 {N(Spacing / 2)}L{s} {N(Spacing / 2)}",
            Texture.Upright => $"M{N(Spacing / 2)} 0L{N(Spacing / 2)} {s}",
            _ => $"M0 {N(Spacing / 2)}L{s} {N(Spacing / 2)}M{N(Spacing / 2)} 0L{N(Spacing / 2)} {s}",
        };
        patterns.Add(
            $"<pattern id=\"{name}\" width=\"{s}\" height=\"{s}\" patternUnits=\"userSpaceOnUse\"><rect width=\"{s}\" height=\"{s}\" fill=\"#ffffff\"/><path d=\"{lines}\" {(texture == Texture.Dots ? $"fill=\"{colour}\"" : $"stroke=\"{colour}\" stroke-width=\"1.2\"")}/></pattern>");
        return name;
    }

    private static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>Names may hold anything; what XML forbids becomes a space.</summary>
    private static string Safe(string text)
    {
        StringBuilder safe = new();
        foreach (Rune rune in text.EnumerateRunes())
        {
            safe.Append(rune.Value switch
            {
                '&' => "&amp;",
                '<' => "&lt;",
                '>' => "&gt;",
                < 0x20 or 0x7F or 0xFFFE or 0xFFFF => " ",
                _ => rune.ToString(),
            });
        }

        return safe.ToString();
    }
}
