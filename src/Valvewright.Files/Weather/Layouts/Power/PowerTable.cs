using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Power;

/// <summary>NASA POWER's daily table, as CSV or parted by blanks, with dates as YEAR,DOY or YEAR,MO,DY, with or without its header
/// block.</summary>
internal static class PowerTable
{
    /// <summary>
    /// More radiation than this in a day cannot be kWh/m2: the most that reaches the top of the air is below 50 MJ/m2, which is 13.9
    /// kWh/m2 (FAO-56 table 2.6).
    /// </summary>
    private const double MostKilowattHours = 13.9;

    /// <summary>Whether a header row belongs to this layout.</summary>
    public static bool Fits(DelimitedText row) =>
        row.Count >= 3 && row[0].SequenceEqual("YEAR") && (row[1].SequenceEqual("DOY") || row[1].SequenceEqual("MO"));

    public static void Read(ReadingJob job, char delimiter)
    {
        job.Source = PowerParameters.Source;
        DelimitedText rows = new(job.Text, delimiter);
        bool block = job.Text.AsSpan().TrimStart().StartsWith(PowerHeader.Begin, StringComparison.Ordinal);
        PowerHeader? header = block ? PowerHeader.Read(job, rows) : null;
        if ((block && header is null) || !rows.Next())
        {
            job.Problem(rows.Line, 0, "", "a line YEAR,DOY,... or YEAR,MO,DY,... and rows", "the file ends before its table");
            return;
        }

        if (!Fits(rows))
        {
            job.Problem(rows.Line, 1, rows.Whole, "YEAR,DOY,... or YEAR,MO,DY,...", "this is not the header of a NASA POWER table",
                NearestWord.To(rows[0].ToString(), ["YEAR"]));
            return;
        }

        int width = rows.Count;
        bool dayOfYear = rows[1].SequenceEqual("DOY");
        IReadOnlyList<DayColumn> columns = Columns(job, rows, header);
        if (job.HasProblems)
        {
            return;
        }

        DayRows days = new(job, rows.FromHere(), width, columns)
        {
            Date = row => dayOfYear ? DateByDayOfYear(job, row) : DateByMonth(job, row),
            FillValue = header?.FillValue ?? PowerParameters.FillValue,
            DropsImplausible = true,
        };
        days.Read();
        header?.CheckPeriod(job);
        Unprocessed(job);
    }

    /// <summary>Says how many days at the end hold only fill values.</summary>
    public static void Unprocessed(ReadingJob job)
    {
        int empty = 0;
        while (empty < job.Days.Count && Enum.GetValues<Quantity>().All(q => double.IsNaN(job.Days.Get(job.Days.Count - 1 - empty, q))))
        {
            empty++;
        }

        if (empty > 0)
        {
            job.Found($"The last {empty} days hold only fill values (not processed yet) and are left out.");
        }
    }

    private static List<DayColumn> Columns(ReadingJob job, DelimitedText row, PowerHeader? header)
    {
        List<string> names = [.. Enumerable.Range(0, row.Count).Select(field => row[field].ToString())];
        List<DayColumn> columns = [];
        foreach ((string name, Quantity quantity, double? windHeightM) in PowerParameters.Use(names))
        {
            int field = names.IndexOf(name);
            job.WindHeightM = windHeightM ?? job.WindHeightM;
            if (UnitOf(job, row, header, name, field, quantity, names) is { } unit)
            {
                columns.Add(new DayColumn(field, name, quantity, unit));
            }
        }

        return columns;
    }

    private static Unit? UnitOf(
        ReadingJob job, DelimitedText row, PowerHeader? header, string name, int field, Quantity quantity, List<string> names)
    {
        string? text = null;
        int line = row.Line, column = row.ColumnOf(field);
        if (job.Options.ColumnUnits.TryGetValue(name, out string? given))
        {
            text = given;
        }
        else if (header is not null && header.Units.TryGetValue(name, out (string Unit, int Line) stated))
        {
            (text, line, column) = (stated.Unit, stated.Line, 0);
        }

        if (text is null)
        {
            return PowerParameters.UsualUnit(quantity) is { } usual ? Usual(job, name, usual) : RadiationUnit(job, row, name, field, names);
        }

        Unit? unit = Unit.Named(text);
        Dimension dimension = Quantities.DimensionOf(quantity);
        if (unit?.Dimension == dimension)
        {
            return unit;
        }

        job.Problem(line, column, text, Unit.ChoicesFor(dimension), $"{name} has no unit of {(Sentence)Quantities.Title(quantity)}",
            NearestWord.To(text, Unit.ChoicesFor(dimension).Split(", ")));
        return null;
    }

    private static Unit Usual(ReadingJob job, string name, Unit unit)
    {
        job.Assumed($"The file does not state the unit of {name}: {unit.Word} taken, as in every NASA POWER answer.");
        return unit;
    }

    private static Unit? RadiationUnit(ReadingJob job, DelimitedText row, string name, int field, List<string> names)
    {
        List<int> fields = [.. PowerParameters.Radiation.Select(radiation => names.IndexOf(radiation)).Where(index => index >= 0)];
        ValueRanges ranges = ValueRanges.Of(row, fields);
        int tell = fields.Find(radiation => ranges[radiation].Highest > MostKilowattHours);
        if (fields.Exists(radiation => ranges[radiation].Highest > MostKilowattHours))
        {
            job.Assumed(
                $"The file does not state the unit of {name}: MJ/m² taken, because {names[tell]} reaches {ranges[tell].Highest:0.##}, more than the sun sends in kWh/m².");
            return Unit.Megajoule;
        }

        job.Problem(row.Line, row.ColumnOf(field), name, "its unit declared: MJ/m² or kWh/m²",
            "the file does not state the unit of radiation, and its values do not tell it");
        return null;
    }

    private static LocalDate? DateByDayOfYear(ReadingJob job, DelimitedText row)
    {
        if (Dates.Digits(row[0], out int year) && Dates.Digits(row[1], out int day) && Dates.TryDayOfYear(year, day, out LocalDate date))
        {
            return date;
        }

        job.Problem(row.Line, row.ColumnOf(0), $"{row[0]},{row[1]}", "year and day of the year", "this is not a date");
        return null;
    }

    private static LocalDate? DateByMonth(ReadingJob job, DelimitedText row)
    {
        if (Dates.Digits(row[0], out int year) && Dates.Digits(row[1], out int month) && Dates.Digits(row[2], out int day)
            && Dates.TryMake(year, month, day, out LocalDate date))
        {
            return date;
        }

        job.Problem(row.Line, row.ColumnOf(0), $"{row[0]},{row[1]},{row[2]}", "year, month and day", "this is not a date");
        return null;
    }
}
