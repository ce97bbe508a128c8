using System.Buffers.Binary;
using System.Text;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>Which signs a font can show, and a text with the others visibly replaced.</summary>
internal sealed class FontCoverage
{
    /// <summary>Stands for a sign that the font lacks: unlike any sign a name is written with.</summary>
    public const char Replacement = '◊';

    /// <summary>Longer names than any page has room for are cut here, so that a hostile one costs no time.</summary>
    private const int LongestText = 200;

    private readonly HashSet<int> signs;

    private FontCoverage(HashSet<int> signs) => this.signs = signs;

    /// <summary>Reads the character map of a TrueType font (OpenType specification, table <c>cmap</c>, format 4).</summary>
    /// <exception cref="InvalidDataException">The font has no such map.</exception>
    public static FontCoverage Of(ReadOnlySpan<byte> font)
    {
        int map = TableAt(font, "cmap"u8);
        int subtables = U16(font, map + 2);
        for (int i = 0; i < subtables; i++)
        {
            int record = map + 4 + 8 * i;
            int at = map + (int)BinaryPrimitives.ReadUInt32BigEndian(font[(record + 4)..]);
            if (U16(font, record) == 3 && U16(font, record + 2) == 1 && U16(font, at) == 4)
            {
                return new FontCoverage(Segments(font, at));
            }
        }

        throw new InvalidDataException("The font has no Unicode character map of format 4.");
    }

    /// <summary>The signs that both fonts can show.</summary>
    public FontCoverage And(FontCoverage other) => new([.. signs.Intersect(other.signs)]);

    /// <summary>Whether the font has the sign.</summary>
    public bool Has(Rune sign) => signs.Contains(sign.Value);

    /// <summary>The text on one line, as the font can show it; each sign that it lacks becomes the replacement.</summary>
    public string Printable(string text)
    {
        StringBuilder shown = new();
        foreach (Rune sign in text.EnumerateRunes())
        {
            if (shown.Length >= LongestText)
            {
                return shown.ToString().Trim() + "…";
            }

            shown.Append(Rune.IsWhiteSpace(sign) || Rune.IsControl(sign) ? " " : Has(sign) ? sign.ToString() : Replacement.ToString());
        }

        return shown.ToString().Trim();
    }

    private static int TableAt(ReadOnlySpan<byte> font, ReadOnlySpan<byte> tag)
    {
        int tables = U16(font, 4);
        for (int i = 0; i < tables; i++)
        {
            int record = 12 + 16 * i;
            if (font.Slice(record, 4).SequenceEqual(tag))
            {
                return (int)BinaryPrimitives.ReadUInt32BigEndian(font[(record + 8)..]);
            }
        }

        throw new InvalidDataException("The font lacks a table.");
    }

    private static HashSet<int> Segments(ReadOnlySpan<byte> font, int at)
    {
        int segments = U16(font, at + 6) / 2;
        int ends = at + 14;
        int starts = ends + 2 * segments + 2;
        HashSet<int> signs = [];
        for (int i = 0; i < segments; i++)
        {
            int last = U16(font, ends + 2 * i);
            for (int sign = U16(font, starts + 2 * i); sign <= last && sign != 0xffff; sign++)
            {
                signs.Add(sign);
            }
        }

        return signs;
    }

    private static int U16(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);
}
