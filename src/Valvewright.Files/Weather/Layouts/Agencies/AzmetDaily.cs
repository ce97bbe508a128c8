using NodaTime;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Agencies;

/// <summary>
/// University of Arizona AZMET raw daily data: no header, 28 numbers a day from 2003 on (25 before), year and day of year first, the
/// station's number third. Metric; wind at 3 m; field 26 is the standardized reference ET.
/// </summary>
internal static class AzmetDaily
{
    private const double WindHeightM = 3;
    private const int FieldsBefore2003 = 25;
    private const int Fields = 28;

    private static readonly DayColumn[] Columns =
    [
        new(3, "Air Temp - Max", Quantity.TmaxC, Unit.Celsius),
        new(4, "Air Temp - Min", Quantity.TminC, Unit.Celsius),
        new(6, "RH - Max", Quantity.RhMaxPercent, Unit.PerCent),
        new(7, "RH - Min", Quantity.RhMinPercent, Unit.PerCent),
        new(8, "RH - Mean", Quantity.RhMeanPercent, Unit.PerCent),
        new(10, "Solar Rad. - Total", Quantity.RadiationMjM2, Unit.Megajoule),
        new(11, "Precipitation - Total", Quantity.RainMm, Unit.Millimetre),
        new(18, "Wind Speed - Mean", Quantity.WindMs, Unit.MetrePerSecond),
        new(25, "ETos", Quantity.PublishedEtoMm, Unit.Millimetre),
        new(26, "Actual Vapor Pressure", Quantity.VapourPressureKpa, Unit.Kilopascal),
        new(27, "Dewpoint", Quantity.DewPointC, Unit.Celsius),
    ];

    /// <summary>Whether a first row belongs to this layout.</summary>
    public static bool Fits(DelimitedText row)
    {
        if (row.Count is not (Fields or FieldsBefore2003) || !TryDate(row, out _) || !Dates.Digits(row[2], out int station)
            || station is < 1 or > 99)
        {
            return false;
        }

        for (int field = 3; field < row.Count; field++)
        {
            if (!Numbers.TryRead(row[field], out _))
            {
                return false;
            }
        }

        return true;
    }

    public static void Read(ReadingJob job)
    {
        DelimitedText first = new(job.Text, ',');
        first.Next();
        int width = first.Count;
        if (width is not (Fields or FieldsBefore2003))
        {
            job.Problem(first.Line, 1, first.Whole, $"{Fields} fields, or {FieldsBefore2003} before 2003",
                "this is not a row of AZMET daily data");
            return;
        }

        StationChoice stations = new();
        DelimitedText rows = new(job.Text, ',');
        while (rows.Next())
        {
            stations.Add(rows[2], [], rows.Line);
        }

        if (stations.Settle(job) is not { } wanted)
        {
            return;
        }

        job.Station = $"AZMET station {wanted}";
        job.Source = "University of Arizona, AZMET";
        job.WindHeightM = WindHeightM;
        new DayRows(job, new DelimitedText(job.Text, ','), width, [.. Columns.Where(column => column.Field < width)])
        {
            Wanted = row => row[2].SequenceEqual(wanted),
            Date = row => Date(job, row),
            MissingWords = ["999", "999.0", "9999", "-999", "-9999", "NA"],
            DropsImplausible = true,
        }.Read();
    }

    private static LocalDate? Date(ReadingJob job, DelimitedText row)
    {
        if (TryDate(row, out LocalDate date))
        {
            return date;
        }

        job.Problem(row.Line, 1, $"{row[0]},{row[1]}", "a year and the day of it, 1 to 366", "this is not a date");
        return null;
    }

    private static bool TryDate(DelimitedText row, out LocalDate date)
    {
        date = default;
        return Dates.Digits(row[0], out int year) && Dates.Digits(row[1], out int day) && Dates.TryDayOfYear(year, day, out date);
    }
}
