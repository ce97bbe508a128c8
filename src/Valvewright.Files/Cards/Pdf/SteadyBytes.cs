using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Valvewright.Files.Cards.Pdf;

/// <summary>Makes a written PDF the same bytes for the same pages: what the writer draws at random is put in terms of the
/// content.</summary>
internal static partial class SteadyBytes
{
    /// <summary>Replaces subset tags, document identifiers and dates, each by one of the same length, so that no offset moves.</summary>
    public static byte[] Of(byte[] pdf)
    {
        string text = Encoding.Latin1.GetString(pdf);
        Dictionary<string, string> tags = [];
        text = SubsetTag().Replace(text, m => "/" + TagOf(m.Groups["tag"].Value, tags) + "+");
        text = Date().Replace(text, m => Blank(m.Value));
        text = Uuid().Replace(text, "00000000-0000-0000-0000-000000000000");
        text = Id().Replace(text, m => m.Groups["lead"].Value + new string('0', m.Groups["a"].Length) + m.Groups["mid"].Value + new string(
            '0', m.Groups["b"].Length) + m.Groups["end"].Value);
        string hash = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(text)));
        text = Id().Replace(text, m => m.Groups["lead"].Value + Repeat(hash, m.Groups["a"].Length) + m.Groups["mid"].Value + Repeat(
            hash, m.Groups["b"].Length) + m.Groups["end"].Value);
        return Encoding.Latin1.GetBytes(text);
    }

    /// <summary>Tags in the order of their first appearance: AAAAAA, AAAAAB, ...</summary>
    private static string TagOf(string tag, Dictionary<string, string> tags)
    {
        if (!tags.TryGetValue(tag, out string? steady))
        {
            tags[tag] = steady = "AAAAA" + (char)('A' + tags.Count);
        }

        return steady;
    }

    /// <summary>A date of the writer's clock with its digits replaced by a fixed date's.</summary>
    private static string Blank(string date)
    {
        const string digits = "20000101000000";
        int at = 0;
        return string.Concat(date.Select(c => char.IsAsciiDigit(c) ? (at < digits.Length ? digits[at++] : '0') : c is '-' ? '+' : c));
    }

    private static string Repeat(string text, int length) => string.Concat(Enumerable.Repeat(text, length / text.Length + 1))[..length];

    [GeneratedRegex(@"/(?<tag>[A-Z]{6})\+(?=Atkinson)")]
    private static partial Regex SubsetTag();

    [GeneratedRegex(@"D:\d{14}(?:Z|[+-]\d\d'\d\d'?)?|(?<=[<>""]\s*)\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)?")]
    private static partial Regex Date();

    [GeneratedRegex(@"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}", RegexOptions.IgnoreCase)]
    private static partial Regex Uuid();

    [GeneratedRegex(@"(?<lead>/ID\s*\[\s*<)(?<a>[0-9A-Fa-f]*)(?<mid>>\s*<)(?<b>[0-9A-Fa-f]*)(?<end>>\s*\])")]
    private static partial Regex Id();
}
