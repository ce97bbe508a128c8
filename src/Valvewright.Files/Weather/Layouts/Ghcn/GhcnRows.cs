using NodaTime;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Ghcn;

/// <summary>
/// GHCN-Daily with one row a day: as ordered online (units chosen by the customer, not stated) or as published by station (with a
/// column of flags beside each element, in tenths).
/// </summary>
internal static class GhcnRows
{
    private const string FlagsEnding = "_ATTRIBUTES";
    private static readonly string[] Elements = ["TMAX", "TMIN", "PRCP", "AWND", "TSUN", "ADPT", "RHAV", "RHMN", "RHMX"];

    /// <summary>The layout a header belongs to, or null.</summary>
    public static WeatherLayout? Fits(DelimitedText header)
    {
        bool station = header.FieldOf("STATION") >= 0 && header.FieldOf("DATE") >= 0;
        if (!station || !Elements.Any(element => header.FieldOf(element) >= 0))
        {
            return null;
        }

        return Elements.Any(element => header.FieldOf(element + FlagsEnding) >= 0) ? WeatherLayout.GhcnAccessCsv
            : WeatherLayout.GhcnOrderCsv;
    }

    /// <summary>Reads either; answers which it was, because an order can have flags too.</summary>
    public static WeatherLayout Read(ReadingJob job, WeatherLayout layout)
    {
        DelimitedText header = new(job.Text, ',');
        header.Next();
        int dateField = header.FieldOf("DATE");
        int stationField = header.FieldOf("STATION");
        if (dateField < 0 || stationField < 0)
        {
            job.Problem(header.Line, 1, header.Whole, "columns STATION and DATE", "the header is not that of a GHCN-Daily table");
            return layout;
        }

        int width = header.Count;
        if (Station(job, header, stationField) is not { } station)
        {
            return layout;
        }

        job.Source = GhcnElements.Source;
        (IReadOnlyList<DayColumn>? columns, layout) = GhcnUnits.Settle(job, header, layout);
        if (columns is null)
        {
            return layout;
        }

        ReadRows(job, header.FromHere(), width, columns, (stationField, dateField, station), header);
        return layout;
    }

    /// <summary>The columns of known elements, with their flags; units still open.</summary>
    public static List<(int Field, string Element, Quantity Quantity, Unit Tenths, int? Flags)> ColumnsOf(DelimitedText header)
    {
        List<(int, string, Quantity, Unit, int?)> columns = [];
        foreach (string element in Elements)
        {
            int field = header.FieldOf(element);
            if (field >= 0 && GhcnElements.Of(element) is (Quantity quantity, Unit tenths))
            {
                int flags = header.FieldOf(element + FlagsEnding);
                columns.Add((field, element, quantity, tenths, flags < 0 ? null : flags));
            }
        }

        return columns;
    }

    private static void ReadRows(
        ReadingJob job, DelimitedText rows, int width, IReadOnlyList<DayColumn> columns,
            (int StationField, int DateField, string Station) keys, DelimitedText header)
    {
        int[] geo = [header.FieldOf("LATITUDE"), header.FieldOf("LONGITUDE"), header.FieldOf("ELEVATION")];
        int total = header.FieldOf(GhcnElements.MultiDayRain), totalDays = header.FieldOf(GhcnElements.MultiDayRainDays);
        Unit rainUnit = columns.FirstOrDefault(c => c.Quantity == Quantity.RainMm)?.Unit ?? Unit.Millimetre;
        MultiDayTotals totals = new();
        DayRows days = new(job, rows, width, columns)
        {
            Wanted = row => row[keys.StationField].SequenceEqual(keys.Station),
            Date = row =>
            {
                job.Place ??= GhcnElements.PlaceOf(row, geo);
                if (!Dates.TryIso(row[keys.DateField], out LocalDate date))
                {
                    job.Problem(row.Line, row.ColumnOf(keys.DateField), row[keys.DateField], "a date as 2021-12-31", "this is not a date");
                    return null;
                }

                AddTotals(totals, row, date, total, totalDays, rainUnit);
                return date;
            },
            MissingWords = ["-9999", "9999"],
            KeepsFlag = KeepsFlag,
            DropsImplausible = true,
        };
        days.Read();
        totals.Spread(job);
        GhcnElements.ReportFlagged(job, days.Flagged);
        GhcnElements.SettleWind(job);
    }

    private static void AddTotals(MultiDayTotals totals, DelimitedText row, LocalDate date, int total, int totalDays, Unit rainUnit)
    {
        if (total >= 0 && Numbers.TryRead(row[total], out double amount) && amount is not (-9999 or 9999))
        {
            totals.AddTotal(date, rainUnit.Kept(amount));
        }

        if (totalDays >= 0 && Numbers.TryRead(row[totalDays], out double days) && days is not (-9999 or 9999))
        {
            totals.AddDays(date, (int)Math.Clamp(days, -1, 1000));
        }
    }

    /// <summary>Flags are measurement, quality, source (and time) parted by commas: a quality flag means a failed check.</summary>
    private static bool KeepsFlag(ReadOnlySpan<char> flags)
    {
        int first = flags.IndexOf(',');
        return first < 0 || first + 1 >= flags.Length || flags[first + 1] is ',' or ' ';
    }

    private static string? Station(ReadingJob job, DelimitedText header, int stationField) =>
        StationChoice.Of(job, header, stationField, header.FieldOf("NAME"));
}
