using Valvewright.Records.Views;

namespace Valvewright.App.Parts.Versions;

/// <summary>Puts two versions of a text that began as one beside each other, piece by piece.</summary>
public static class LinePieces
{
    /// <summary>The pieces of a text, in order; joined they are a whole version.</summary>
    /// <param name="common">What both began with.</param>
    /// <param name="theirs">The other person's changes of it.</param>
    /// <param name="yours">The changes made here.</param>
    public static ListOf<Piece> Of(string common, ListOf<LineChange> theirs, ListOf<LineChange> yours)
    {
        string[] lines = Lines(common);
        List<Piece> pieces = [];
        int at = 0;
        foreach ((int from, int to) in Regions(theirs.Concat(yours)))
        {
            AddSame(pieces, lines, at, from);
            pieces.Add(new Piece(
                "", from + 1, lines[from..to].ToListOf(), Version(lines, from, to, theirs), Version(lines, from, to, yours)));
            at = to;
        }

        AddSame(pieces, lines, at, lines.Length);
        return pieces.ToListOf();
    }

    /// <summary>The pieces where no one knows what both began with.</summary>
    /// <param name="theirs">The other person's text.</param>
    /// <param name="fromTheirsToYours">What lies between it and the one written here.</param>
    public static ListOf<Piece> Of(string theirs, ListOf<LineChange> fromTheirsToYours) =>
        Of(theirs, [], fromTheirsToYours).Select(p => p.IsAgreed ? p : p with { Common = null }).ToListOf();

    /// <summary>The text that comes of the sides chosen.</summary>
    /// <param name="pieces">All pieces.</param>
    /// <param name="sideOf">The side taken of the piece of that number.</param>
    public static string Joined(IReadOnlyList<Piece> pieces, Func<int, Side> sideOf)
    {
        return string.Join('\n', pieces.SelectMany((piece, i) => piece.IsAgreed ? piece.Theirs : piece.Taken(sideOf(i))));
    }

    private static string[] Lines(string text) => text.ReplaceLineEndings("\n").Split('\n');

    private static void AddSame(List<Piece> pieces, string[] lines, int from, int to)
    {
        if (to > from)
        {
            ListOf<string> same = lines[from..to].ToListOf();
            pieces.Add(new Piece("", from + 1, same, same, same));
        }
    }

    /// <summary>Stretches of lines that any of the changes touches; changes that meet are one stretch.</summary>
    private static List<(int From, int To)> Regions(IEnumerable<LineChange> changes)
    {
        List<(int From, int To)> regions = [];
        foreach (LineChange change in changes.OrderBy(c => c.FromLine).ThenBy(c => c.Removed.Count))
        {
            (int from, int to) = (change.FromLine - 1, change.FromLine - 1 + change.Removed.Count);
            if (regions.Count > 0 && from <= regions[^1].To)
            {
                regions[^1] = (regions[^1].From, Math.Max(regions[^1].To, to));
            }
            else
            {
                regions.Add((from, to));
            }
        }

        return regions;
    }

    /// <summary>What one person made of a stretch.</summary>
    private static ListOf<string> Version(string[] lines, int from, int to, ListOf<LineChange> changes)
    {
        List<string> version = [];
        int at = from;
        foreach (LineChange change in changes.Where(c => c.FromLine - 1 >= from && c.FromLine - 1 + c.Removed.Count <= to)
            .OrderBy(c => c.FromLine))
        {
            version.AddRange(lines[at..(change.FromLine - 1)]);
            version.AddRange(change.Added);
            at = change.FromLine - 1 + change.Removed.Count;
        }

        version.AddRange(lines[at..to]);
        return version.ToListOf();
    }
}
