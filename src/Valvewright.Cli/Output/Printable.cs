using System.Text;

namespace Valvewright.Cli.Output;

/// <summary>Text from a file, made safe to print.</summary>
internal static class Printable
{
    private const int Longest = 120;

    /// <summary>Control characters made visible, long text cut.</summary>
    public static string Of(string text)
    {
        StringBuilder safe = new();
        foreach (char c in text.AsSpan(0, Math.Min(text.Length, Longest)))
        {
            safe.Append(char.IsControl(c) || char.IsSurrogate(c) ? $"\\u{(int)c:X4}" : c);
        }

        return safe.Append(text.Length > Longest ? " ..." : "").ToString();
    }
}
