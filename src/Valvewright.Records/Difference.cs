using System.Text.Json;
using Valvewright.Records.Views;

namespace Valvewright.Records;

/// <summary>Tells two versions apart.</summary>
public static class Difference
{
    /// <summary>Above this product of line counts, what lies between the first and the last difference is shown as one change.</summary>
    private const long MostWork = 4_000_000;

    /// <summary>The lines that differ, by the longest common subsequence of lines.</summary>
    public static ListOf<LineChange> OfLines(string from, string to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        string[] a = from.ReplaceLineEndings("\n").Split('\n'), b = to.ReplaceLineEndings("\n").Split('\n');
        int head = 0;
        while (head < a.Length && head < b.Length && a[head] == b[head])
        {
            head++;
        }

        int tail = 0;
        while (tail < a.Length - head && tail < b.Length - head && a[^(tail + 1)] == b[^(tail + 1)])
        {
            tail++;
        }

        string[] midA = a[head..^tail], midB = b[head..^tail];
        if (midA.Length == 0 && midB.Length == 0)
        {
            return [];
        }

        return (long)midA.Length * midB.Length > MostWork
            ? [new LineChange(head + 1, head + 1, [.. midA], [.. midB])]
            : Steps(midA, midB, head);
    }

    /// <summary>The members that differ.</summary>
    public static ListOf<MemberChange> OfMembers(JsonElement from, JsonElement to)
    {
        List<MemberChange> changes = [];
        IEnumerable<string> names = from.EnumerateObject().Select(p => p.Name).Concat(to.EnumerateObject().Select(p => p.Name)).Distinct();
        foreach (string name in names)
        {
            JsonElement? a = from.TryGetProperty(name, out JsonElement x) ? x : null,
                b = to.TryGetProperty(name, out JsonElement y) ? y : null;
            if (a is null || b is null || !JsonElement.DeepEquals(a.Value, b.Value))
            {
                changes.Add(new MemberChange(name, a, b));
            }
        }

        return [.. changes];
    }

    private static ListOf<LineChange> Steps(string[] a, string[] b, int head)
    {
        int[,] common = new int[a.Length + 1, b.Length + 1];
        for (int i = a.Length - 1; i >= 0; i--)
        {
            for (int j = b.Length - 1; j >= 0; j--)
            {
                common[i, j] = a[i] == b[j] ? common[i + 1, j + 1] + 1 : Math.Max(common[i + 1, j], common[i, j + 1]);
            }
        }

        List<LineChange> changes = [];
        int x = 0, y = 0;
        while (x < a.Length || y < b.Length)
        {
            int fromX = x, fromY = y;
            while ((x < a.Length || y < b.Length) && !(x < a.Length && y < b.Length && a[x] == b[y]))
            {
                _ = y >= b.Length || (x < a.Length && common[x + 1, y] >= common[x, y + 1]) ? x++ : y++;
            }

            if (x > fromX || y > fromY)
            {
                changes.Add(new LineChange(head + fromX + 1, head + fromY + 1, [.. a[fromX..x]], [.. b[fromY..y]]));
            }

            while (x < a.Length && y < b.Length && a[x] == b[y])
            {
                x++;
                y++;
            }
        }

        return [.. changes];
    }
}
