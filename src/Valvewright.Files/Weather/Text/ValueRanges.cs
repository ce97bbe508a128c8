namespace Valvewright.Files.Weather.Text;

/// <summary>What the numbers of a column look like, for judging its unit.</summary>
/// <param name="Count">How many numbers.</param>
/// <param name="Lowest">Least.</param>
/// <param name="Highest">Most.</param>
/// <param name="Mean">Mean.</param>
/// <param name="Decimals">Most digits behind the point as written.</param>
internal readonly record struct ValueRange(int Count, double Lowest, double Highest, double Mean, int Decimals);

/// <summary>The ranges of several columns of a table, from one pass over it.</summary>
internal sealed class ValueRanges
{
    private readonly Dictionary<int, ValueRange> ranges = [];

    private ValueRanges()
    {
    }

    public ValueRange this[int field] => ranges[field];

    /// <summary>Looks through the rows after the header; what is not a number, or is a usual fill value, is passed over.</summary>
    public static ValueRanges Of(DelimitedText header, IReadOnlyList<int> fields)
    {
        double[] sums = new double[fields.Count];
        ValueRange[] found = new ValueRange[fields.Count];
        Array.Fill(found, new ValueRange(0, double.PositiveInfinity, double.NegativeInfinity, double.NaN, 0));
        DelimitedText rows = header.FromHere();
        while (rows.Next())
        {
            for (int i = 0; i < fields.Count; i++)
            {
                ReadOnlySpan<char> field = rows[fields[i]];
                if (field.Length > 0 && Numbers.TryRead(field, out double value) && value is not (-999 or -9999 or -99))
                {
                    ValueRange range = found[i];
                    sums[i] += value;
                    found[i] = new ValueRange(
                        range.Count + 1, Math.Min(range.Lowest, value), Math.Max(range.Highest, value), sums[i] / (range.Count + 1),
                        Math.Max(range.Decimals, Numbers.Decimals(field)));
                }
            }
        }

        ValueRanges all = new();
        for (int i = 0; i < fields.Count; i++)
        {
            all.ranges[fields[i]] = found[i];
        }

        return all;
    }
}
