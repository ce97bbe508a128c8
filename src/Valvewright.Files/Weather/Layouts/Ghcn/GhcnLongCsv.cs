using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Ghcn;

/// <summary>
/// GHCN-Daily with one row per day and element: station, date, element, value in tenths, measurement flag, quality flag, source flag,
/// time of observation. As published it has no header; copies with a header and with coordinates behind it are about.
/// </summary>
internal sealed class GhcnLongCsv
{
    private const int IdField = 0, DateField = 1, ElementField = 2, ValueField = 3, QualityField = 5;
    private readonly ReadingJob job;
    private readonly MultiDayTotals totals = new();
    private readonly Tally dropped = new();
    private int flagged;

    private GhcnLongCsv(ReadingJob job) => this.job = job;

    /// <summary>Whether a row looks like one of this layout, header or not.</summary>
    public static bool Fits(DelimitedText row) =>
        row.Count >= 4 && ((IsDate(row) && row[IdField].Length == 11 && row[ElementField].Length == 4) || IsHeader(row));

    public static void Read(ReadingJob job) => new GhcnLongCsv(job).ReadAll();

    private static bool IsDate(DelimitedText row) => row[DateField].Length == 8 && row[DateField].IndexOfAnyExceptInRange('0', '9') < 0;

    private static bool IsHeader(DelimitedText row) => row[ElementField].Equals("ELEMENT", StringComparison.OrdinalIgnoreCase);

    private void ReadAll()
    {
        job.Source = GhcnElements.Source;
        DelimitedText rows = new(job.Text, ',');
        rows.Next();
        int width = Math.Max(4, rows.Count);
        string[] header = IsHeader(rows)
            ? [.. Enumerable.Range(0, rows.Count).Select(field => rows[field].ToString().ToUpperInvariant())] : [];
        DelimitedText data() => header.Length > 0 ? rows.FromHere() : new DelimitedText(job.Text, ',');
        if (Station(data(), Array.IndexOf(header, "NAME")) is not { } station)
        {
            return;
        }

        int[] geo = [Array.IndexOf(header, "LATITUDE"), Array.IndexOf(header, "LONGITUDE"), Array.IndexOf(header, "ELEVATION")];
        DelimitedText values = data();
        while (!job.Enough && values.Next())
        {
            if (!values[IdField].SequenceEqual(station))
            {
                continue;
            }

            if (values.Count < width)
            {
                job.Problem(values.Line, values.ColumnOf(values.Count), $"{values.Count} fields", $"{width} fields", "the line ends early");
                continue;
            }

            job.Place ??= GhcnElements.PlaceOf(values, geo);
            ReadRow(values);
        }

        totals.Spread(job);
        dropped.Report(job);
        GhcnElements.ReportFlagged(job, flagged);
        GhcnElements.SettleWind(job);
    }

    private string? Station(DelimitedText rows, int nameField)
    {
        StationChoice stations = new();
        while (rows.Next())
        {
            stations.Add(rows[IdField], nameField < 0 ? [] : rows[nameField], rows.Line);
        }

        string? station = stations.Settle(job);
        if (stations.Count == 0)
        {
            job.Problem(1, 1, "", "rows of station, date, element and value", "the file holds no row");
        }

        return station;
    }

    private void ReadRow(DelimitedText row)
    {
        if (!Dates.TryIso(row[DateField], out LocalDate date))
        {
            job.Problem(row.Line, row.ColumnOf(DateField), row[DateField], "a date as 20211231", "this is not a date");
            return;
        }

        bool isTotal = row[ElementField].SequenceEqual(GhcnElements.MultiDayRain);
        bool isDays = row[ElementField].SequenceEqual(GhcnElements.MultiDayRainDays);
        (Quantity Quantity, Unit Unit)? use = GhcnElements.Of(row[ElementField]);
        if (use is null && !isTotal && !isDays)
        {
            return;
        }

        if (!Numbers.TryRead(row[ValueField], out double value))
        {
            job.Problem(row.Line, row.ColumnOf(ValueField), row[ValueField], "a whole number of tenths", "the value is not a number");
            return;
        }

        if (value == -9999)
        {
            return;
        }

        if (row[QualityField].Length > 0)
        {
            flagged++;
        }
        else if (isTotal)
        {
            totals.AddTotal(date, Unit.TenthMillimetre.Kept(value));
        }
        else if (isDays)
        {
            totals.AddDays(date, (int)Math.Clamp(value, -1, 1000));
        }
        else
        {
            Take(row, date, use!.Value.Quantity, use.Value.Unit.Kept(value));
        }
    }

    private void Take(DelimitedText row, LocalDate date, Quantity quantity, double value)
    {
        dropped.Seen(quantity);
        if (!Plausible.Holds(quantity, value))
        {
            dropped.Drop(quantity, row.Line, row.ColumnOf(ValueField), row[ValueField].ToString());
            return;
        }

        int day = job.Days.RowOf(date);
        if (!double.IsNaN(job.Days.Get(day, quantity)))
        {
            job.Problem(row.Line, row.ColumnOf(DateField), row[DateField], "each date and element once",
                $"{row[ElementField].ToString()} is here twice on this date");
            return;
        }

        job.Days.Set(day, quantity, value);
    }
}
