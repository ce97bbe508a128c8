using Valvewright.Engine.Weather;

namespace Valvewright.Files.Weather.Values;

/// <summary>Daily values as they are gathered from a file, in any order of dates; NaN where none was given.</summary>
internal sealed class DayTable
{
    private readonly Dictionary<LocalDate, int> rows = [];
    private readonly List<LocalDate> dates = [];
    private double[] values = new double[64 * Quantities.Count];

    public int Count => dates.Count;

    public LocalDate DateOf(int row) => dates[row];

    /// <summary>The row of a date, made if need be.</summary>
    public int RowOf(LocalDate date) => rows.TryGetValue(date, out int row) ? row : Append(date);

    /// <summary>The row of a date, or -1.</summary>
    public int Find(LocalDate date) => rows.TryGetValue(date, out int row) ? row : -1;

    public double Get(int row, Quantity quantity) => values[(row * Quantities.Count) + (int)quantity];

    public void Set(int row, Quantity quantity, double value) => values[(row * Quantities.Count) + (int)quantity] = value;

    /// <summary>Whether any day has the quantity.</summary>
    public bool Has(Quantity quantity) => CountOf(quantity) > 0;

    /// <summary>How many days have the quantity.</summary>
    public int CountOf(Quantity quantity)
    {
        int count = 0;
        for (int row = 0; row < dates.Count; row++)
        {
            count += double.IsNaN(Get(row, quantity)) ? 0 : 1;
        }

        return count;
    }

    /// <summary>The days that have at least one value, by rising date.</summary>
    public ListOf<DailyWeather> Days()
    {
        int[] order = [.. Enumerable.Range(0, dates.Count).Where(HasAny)];
        Array.Sort(order, (one, other) => dates[one].CompareTo(dates[other]));
        DailyWeather[] days = new DailyWeather[order.Length];
        for (int i = 0; i < order.Length; i++)
        {
            days[i] = Day(order[i]);
        }

        return ListOf.Create<DailyWeather>(days);
    }

    private int Append(LocalDate date)
    {
        int row = dates.Count;
        rows.Add(date, row);
        dates.Add(date);
        int needed = (row + 1) * Quantities.Count;
        if (needed > values.Length)
        {
            Array.Resize(ref values, values.Length * 2);
        }

        values.AsSpan(needed - Quantities.Count, Quantities.Count).Fill(double.NaN);
        return row;
    }

    private bool HasAny(int row)
    {
        foreach (double value in values.AsSpan(row * Quantities.Count, Quantities.Count))
        {
            if (!double.IsNaN(value))
            {
                return true;
            }
        }

        return false;
    }

    private DailyWeather Day(int row) => new(dates[row])
    {
        TmaxC = Get(row, Quantity.TmaxC),
        TminC = Get(row, Quantity.TminC),
        RainMm = Get(row, Quantity.RainMm),
        RhMaxPercent = Get(row, Quantity.RhMaxPercent),
        RhMinPercent = Get(row, Quantity.RhMinPercent),
        RhMeanPercent = Get(row, Quantity.RhMeanPercent),
        VapourPressureKpa = Get(row, Quantity.VapourPressureKpa),
        DewPointC = Get(row, Quantity.DewPointC),
        RadiationMjM2 = Get(row, Quantity.RadiationMjM2),
        SunshineHours = Get(row, Quantity.SunshineHours),
        WindMs = Get(row, Quantity.WindMs),
        PublishedEtoMm = Get(row, Quantity.PublishedEtoMm),
    };
}
