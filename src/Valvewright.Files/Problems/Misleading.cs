namespace Valvewright.Files.Problems;

/// <summary>Characters that make text look like another: they turn the direction of writing, or hide.</summary>
public static class Misleading
{
    /// <summary>Whether a character is one (Unicode Technical Report 36, 2.6: explicit embeddings, overrides, isolates and
    /// marks).</summary>
    public static bool Is(char c) =>
        c is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069') or '\u200E' or '\u200F' or '\u061C';
}
