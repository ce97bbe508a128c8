using Valvewright.Engine.Values;

namespace Valvewright.Engine.Audit;

/// <summary>A line of a contour.</summary>
/// <param name="Level">The share of the mean depth on it.</param>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
public sealed record ContourLine(double Level, CanPlace From, CanPlace To);

/// <summary>The pattern of an audit over its area: depth as a share of the mean, drawn through every can.</summary>
/// <remarks>Thin plate spline (Duchon 1977): the smoothest surface through the cans. Never below zero.</remarks>
public sealed class PatternMap
{
    private readonly double[] weights;
    private readonly CanPlace[] places;
    private readonly double scale;

    /// <summary>Fits the surface.</summary>
    /// <param name="places">Where the cans stood; not all on one line.</param>
    /// <param name="shares">Depth over mean depth, in the same order.</param>
    /// <exception cref="ArgumentException">Fewer than 4 cans, counts that differ, two cans in one place, or all on a line.</exception>
    public PatternMap(ListOf<CanPlace> places, ListOf<double> shares)
    {
        ArgumentNullException.ThrowIfNull(places);
        ArgumentNullException.ThrowIfNull(shares);
        if (places.Count < 4 || places.Count != shares.Count) throw new ArgumentException(
            "A pattern needs the place of each of at least 4 cans.", nameof(places));
        if (places.Distinct().Count() < places.Count) throw new ArgumentException("Two cans have the same place.", nameof(places));
        this.places = [.. places];
        (MinX, MaxX, MinY, MaxY) = (places.Min(p => p.XM), places.Max(p => p.XM), places.Min(p => p.YM), places.Max(p => p.YM));
        scale = Math.Max(MaxX - MinX, MaxY - MinY);
        int count = places.Count;
        double[,] matrix = new double[count + 3, count + 3];
        double[] right = new double[count + 3];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++) matrix[i, j] = Kernel(this.places[i], this.places[j].XM, this.places[j].YM);
            (double x, double y) = ((places[i].XM - MinX) / scale, (places[i].YM - MinY) / scale);
            (matrix[i, count], matrix[i, count + 1], matrix[i, count + 2]) = (1, x, y);
            (matrix[count, i], matrix[count + 1, i], matrix[count + 2, i]) = (1, x, y);
            right[i] = shares[i];
        }

        weights = Solve(matrix, right) ?? throw new ArgumentException("All cans are on one line; a pattern needs an area.", nameof(places));
    }

    /// <summary>Left edge of the cans.</summary>
    public double MinX { get; }

    /// <summary>Right edge.</summary>
    public double MaxX { get; }

    /// <summary>Lower edge.</summary>
    public double MinY { get; }

    /// <summary>Upper edge.</summary>
    public double MaxY { get; }

    /// <summary>Depth over mean depth at a place.</summary>
    public double ShareAt(double xM, double yM)
    {
        int count = places.Length;
        double share = weights[count] + (weights[count + 1] * (xM - MinX) / scale) + (weights[count + 2] * (yM - MinY) / scale);
        for (int i = 0; i < count; i++) share += weights[i] * Kernel(places[i], xM, yM);
        return Math.Max(0, share);
    }

    /// <summary>Contour lines at shares of the mean, on a grid of cells (marching squares).</summary>
    public ListOf<ContourLine> Contours(ListOf<double> levels, int cells = 40)
    {
        ArgumentNullException.ThrowIfNull(levels);
        double[,] grid = new double[cells + 1, cells + 1];
        double X(double i) => MinX + ((MaxX - MinX) * i / cells);
        double Y(double j) => MinY + ((MaxY - MinY) * j / cells);
        for (int i = 0; i <= cells; i++)
        {
            for (int j = 0; j <= cells; j++) grid[i, j] = ShareAt(X(i), Y(j));
        }

        List<ContourLine> lines = [];
        foreach (double level in levels)
        {
            for (int i = 0; i < cells; i++)
            {
                for (int j = 0; j < cells; j++) AddCell(i, j, level);
            }
        }

        return lines.ToListOf();

        void AddCell(int i, int j, double level)
        {
            (int I, int J)[] corners = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)];
            List<CanPlace> cuts = [];
            for (int side = 0; side < 4; side++)
            {
                (int I, int J) a = corners[side], b = corners[(side + 1) % 4];
                (double va, double vb) = (grid[a.I, a.J], grid[b.I, b.J]);
                if (va < level == vb < level) continue;
                double t = (level - va) / (vb - va);
                cuts.Add(new CanPlace(X(a.I + (t * (b.I - a.I))), Y(a.J + (t * (b.J - a.J)))));
            }

            for (int k = 0; k + 1 < cuts.Count; k += 2) lines.Add(new ContourLine(level, cuts[k], cuts[k + 1]));
        }
    }

    private double Kernel(CanPlace place, double xM, double yM)
    {
        double dx = (place.XM - xM) / scale, dy = (place.YM - yM) / scale;
        double square = (dx * dx) + (dy * dy);
        return square <= 0 ? 0 : 0.5 * square * Math.Log(square);
    }

    /// <summary>Gauss elimination with the largest pivot; null where the equations do not have one answer.</summary>
    private static double[]? Solve(double[,] matrix, double[] right)
    {
        int count = right.Length;
        for (int k = 0; k < count; k++)
        {
            int pivot = k;
            for (int i = k + 1; i < count; i++) pivot = Math.Abs(matrix[i, k]) > Math.Abs(matrix[pivot, k]) ? i : pivot;
            if (Math.Abs(matrix[pivot, k]) < 1e-10) return null;
            for (int j = k; j < count; j++) (matrix[k, j], matrix[pivot, j]) = (matrix[pivot, j], matrix[k, j]);
            (right[k], right[pivot]) = (right[pivot], right[k]);
            for (int i = k + 1; i < count; i++)
            {
                double factor = matrix[i, k] / matrix[k, k];
                for (int j = k; j < count; j++) matrix[i, j] -= factor * matrix[k, j];
                right[i] -= factor * right[k];
            }
        }

        for (int k = count - 1; k >= 0; k--)
        {
            for (int j = k + 1; j < count; j++) right[k] -= matrix[k, j] * right[j];
            right[k] /= matrix[k, k];
        }

        return right;
    }
}
