using System.Collections.Concurrent;
using System.Reflection;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>The typeface that comes with the project: Atkinson Hyperlegible Next (SIL Open Font License 1.1), drawn to keep like signs
/// apart.</summary>
internal sealed class CardFonts : IFontResolver
{
    private const string Family = "Atkinson Hyperlegible Next";
    private static readonly ConcurrentDictionary<string, byte[]> Files = new();
    private static readonly Lazy<FontCoverage> Covered = new(() => FontCoverage.Of(Load("Regular")).And(FontCoverage.Of(Load("Bold"))));
    private static readonly XPdfFontOptions Options = new(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset);

    static CardFonts() => GlobalFontSettings.FontResolver ??= new CardFonts();

    private CardFonts()
    {
    }

    /// <summary>The signs that both weights can show.</summary>
    public static FontCoverage Coverage => Covered.Value;

    /// <summary>A font of a size in points.</summary>
    public static XFont Of(double size, bool bold) => new(Family, size, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular, Options);

    /// <inheritdoc/>
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        familyName == Family ? new FontResolverInfo(isBold ? "Bold" : "Regular") : null;

    /// <inheritdoc/>
    public byte[]? GetFont(string faceName) => Load(faceName);

    private static byte[] Load(string face) => Files.GetOrAdd(face, name =>
    {
        string resource = $"Valvewright.Files.Fonts.AtkinsonHyperlegibleNext-{name}.ttf";
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"The font '{resource}' is not in the assembly.");
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    });
}
