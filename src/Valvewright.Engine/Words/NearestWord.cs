namespace Valvewright.Engine.Words;

/// <summary>Finds what a person probably meant.</summary>
public static class NearestWord
{
    /// <summary>Longer texts than this are no misspelt word.</summary>
    private const int LongestWord = 64;

    /// <summary>
    /// The valid word with the fewest single-letter edits (insert, delete, replace, swap of neighbours), case ignored; the first of
    /// several. Null where none is nearer than a third of the longer word's letters (at least two edits are always allowed for words
    /// of four letters or more).
    /// </summary>
    public static string? To(string found, IEnumerable<string> valid)
    {
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(valid);
        if (found.Length is 0 or > LongestWord)
        {
            return null;
        }

        string? best = null;
        int fewest = int.MaxValue;
        foreach (string word in valid)
        {
            if (word.Length > LongestWord)
            {
                continue;
            }

            int longer = Math.Max(found.Length, word.Length);
            int allowed = Math.Min(longer - 1, Math.Max(longer / 3, longer >= 4 ? 2 : 1));
            int edits = Edits(found.ToUpperInvariant(), word.ToUpperInvariant());
            if (edits <= allowed && edits < fewest)
            {
                best = word;
                fewest = edits;
            }
        }

        return best;
    }

    /// <summary>Edit distance with swaps of neighbours (Damerau 1964, in its restricted form).</summary>
    public static int Edits(string one, string other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        int[] beforeLast = new int[other.Length + 1];
        int[] last = [.. Enumerable.Range(0, other.Length + 1)];
        int[] row = new int[other.Length + 1];
        for (int i = 1; i <= one.Length; i++)
        {
            row[0] = i;
            for (int j = 1; j <= other.Length; j++)
            {
                int replace = last[j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1);
                row[j] = Math.Min(replace, Math.Min(last[j], row[j - 1]) + 1);
                if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                {
                    row[j] = Math.Min(row[j], beforeLast[j - 2] + 1);
                }
            }

            (beforeLast, last, row) = (last, row, beforeLast);
        }

        return last[other.Length];
    }
}
