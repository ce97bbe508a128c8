namespace Valvewright.Engine.Hydraulics;

/// <summary>Symmetric, positive definite equations whose non-zero places stay the same: ordered once, solved often.</summary>
/// <remarks>Cholesky elimination without roots, in the order of least degree (Tinney and Walker 1967, Proceedings of the IEEE 55,
/// 1801-1809).</remarks>
internal sealed class SparseHeads
{
    private readonly int[] order;
    private readonly int[][] columns;
    private readonly int[][] slots;
    private readonly int[][] targets;
    private readonly Dictionary<(int Low, int High), int> slotOf = [];

    internal SparseHeads(int count, IEnumerable<(int One, int Other)> pairs)
    {
        SortedSet<int>[] near = [.. Enumerable.Range(0, count).Select(_ => new SortedSet<int>())];
        foreach ((int one, int other) in pairs)
        {
            if (one == other) continue;
            near[one].Add(other);
            near[other].Add(one);
            SlotOf(one, other);
        }

        order = new int[count];
        columns = new int[count][];
        slots = new int[count][];
        targets = new int[count][];
        HashSet<int> left = [.. Enumerable.Range(0, count)];
        for (int step = 0; step < count; step++)
        {
            int next = left.MinBy(i => (near[i].Count, i));
            left.Remove(next);
            order[step] = next;
            int[] around = [.. near[next]];
            columns[step] = around;
            slots[step] = [.. around.Select(other => SlotOf(next, other))];
            List<int> fill = [];
            for (int a = 0; a < around.Length; a++)
            {
                near[around[a]].Remove(next);
                for (int b = a + 1; b < around.Length; b++)
                {
                    near[around[a]].Add(around[b]);
                    near[around[b]].Add(around[a]);
                    fill.Add(SlotOf(around[a], around[b]));
                }
            }

            targets[step] = [.. fill];
        }
    }

    /// <summary>How many places beyond the diagonal there are, filled ones included.</summary>
    internal int Slots => slotOf.Count;

    /// <summary>The place of a pair in the list of values.</summary>
    internal int SlotOf(int one, int other)
    {
        (int, int) key = one < other ? (one, other) : (other, one);
        if (!slotOf.TryGetValue(key, out int slot)) slotOf.Add(key, slot = slotOf.Count);
        return slot;
    }

    /// <summary>Solves in place; <paramref name="right"/> becomes the answer.</summary>
    internal void Solve(double[] diagonal, double[] values, double[] right)
    {
        for (int step = 0; step < order.Length; step++)
        {
            int pivot = order[step];
            int[] around = columns[step];
            int target = 0;
            for (int a = 0; a < around.Length; a++)
            {
                double factor = values[slots[step][a]] / diagonal[pivot];
                diagonal[around[a]] -= factor * values[slots[step][a]];
                right[around[a]] -= factor * right[pivot];
                for (int b = a + 1; b < around.Length; b++) values[targets[step][target++]] -= factor * values[slots[step][b]];
            }
        }

        for (int step = order.Length - 1; step >= 0; step--)
        {
            int pivot = order[step];
            double sum = right[pivot];
            for (int a = 0; a < columns[step].Length; a++) sum -= values[slots[step][a]] * right[columns[step][a]];
            right[pivot] = sum / diagonal[pivot];
        }
    }
}
