using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>
/// EnergyPlus weather file (EPW), hourly: the place on the line LOCATION, seven more lines, then a row an hour with hours 1 to 24. Days are
/// made of their hours: highest and lowest temperature and humidity, mean dew point and wind, sums of radiation and rain.
/// </summary>
/// <remarks>
/// Field numbers and values for "missing" after the EnergyPlus documentation, Auxiliary Programs, "EnergyPlus weather file (EPW) data
/// dictionary". A typical year takes each month from another year: it is laid on one year, and a warning says so.
/// </remarks>
internal static class EnergyPlusWeather
{
    private const string Begin = "LOCATION";
    private const int HeadLines = 8;
    private const int HoursOfDay = 24;

    /// <summary>With fewer hours a day's highest and lowest say little.</summary>
    private const int FewestHours = 20;

    /// <summary>EnergyPlus itself takes wind as measured at 10 m.</summary>
    private const double WindHeightM = 10;

    /// <summary>A common year for typical years: whichever, as long as it has no 29 February.</summary>
    private const int TypicalYear = 2001;

    private enum Hourly
    {
        Temperature,
        DewPoint,
        Humidity,
        Radiation,
        Wind,
        Rain,
    }

    private static readonly (int Field, double Missing, double Least, double Most)[] Columns =
        [(6, 99.9, -70, 70), (7, 99.9, -70, 70), (8, 999, 0, 110), (13, 9999, 0, 9998), (21, 999, 0, 40), (33, 999, 0, 998)];

    public static bool Fits(ReadOnlySpan<char> text) => text.StartsWith(Begin + ",", StringComparison.OrdinalIgnoreCase);

    public static void Read(ReadingJob job)
    {
        DelimitedText rows = new(job.Text, ',');
        if (!rows.Next() || !rows[0].Equals(Begin, StringComparison.OrdinalIgnoreCase))
        {
            job.Problem(1, 1, rows.Whole, "LOCATION,city,...", "the file does not begin as an EnergyPlus weather file does");
            return;
        }

        ReadPlace(job, rows);
        for (int line = 1; line < HeadLines && rows.Next(); line++)
        {
        }

        List<(int Year, int Month, int Day, double[] Values)> hours = [];
        while (!job.Enough && rows.Next())
        {
            if (Hour(job, rows) is { } hour)
            {
                hours.Add(hour);
            }
        }

        if (hours.Count == 0 && !job.HasProblems)
        {
            job.Problem(rows.Line, 0, "", "a row an hour", "the file has no hours");
        }

        if (!job.HasProblems)
        {
            Days(job, hours);
        }
    }

    private static void ReadPlace(ReadingJob job, DelimitedText location)
    {
        job.Station = $"{location[1]}, {location[3]}";
        job.Source = $"EnergyPlus weather file, {location[4]}";
        job.WindHeightM = WindHeightM;
        job.IsWindHeightAssumed = true;
        if (Numbers.TryRead(location[6], out double latitude) && Numbers.TryRead(location[7], out double longitude)
            && Numbers.TryRead(location[9], out double elevation)
            && Math.Abs(latitude) <= 90 && Math.Abs(longitude) <= 180)
        {
            job.Place = new Place(latitude, longitude, elevation);
        }
    }

    private static (int Year, int Month, int Day, double[] Values)? Hour(ReadingJob job, DelimitedText row)
    {
        if (!Dates.Digits(row[0], out int year) || !Dates.Digits(row[1], out int month) || !Dates.Digits(row[2], out int day)
            || !Dates.Digits(row[3], out int hour)
            || hour > HoursOfDay || !Dates.TryMake(year, month, day, out _))
        {
            job.Problem(row.Line, 1, row.Whole, "year, month, day, hour 1 to 24", "this row has no date");
            return null;
        }

        double[] values = new double[Columns.Length];
        for (int i = 0; i < Columns.Length; i++)
        {
            (int field, double missing, double least, double most) = Columns[i];
            bool read = Numbers.TryRead(row[field], out double value);
            if (!read && row[field].Length > 0)
            {
                job.Problem(row.Line, row.ColumnOf(field), row[field], "a number", $"{(Hourly)i} is not a number");
                return null;
            }

            values[i] = read && value != missing && value >= least && value <= most ? value : double.NaN;
        }

        return (year, month, day, values);
    }

    private static void Days(ReadingJob job, List<(int Year, int Month, int Day, double[] Values)> hours)
    {
        bool typical = hours.Select(h => (h.Year, h.Month)).Distinct().GroupBy(m => m.Month).All(g => g.Count() == 1)
            && hours.Select(h => h.Year).Distinct().Count() > 1
            && !hours.Zip(hours.Skip(1))
                .All(pair => (pair.First.Year, pair.First.Month).CompareTo((pair.Second.Year, pair.Second.Month)) <= 0);
        if (typical)
        {
            job.Warn(
                $"The file is a typical year put together from {string.Join(", ", hours.Select(h => h.Year).Distinct().Order().Select(y => $"{y}"))}; its dates are laid on {TypicalYear}. A plan cannot be proven on years it has not seen; use a record of real years where there is one.");
        }

        int thin = 0;
        foreach (var day in hours.Where(h => !typical || (h.Month, h.Day) != (2, 29))
            .GroupBy(h => new LocalDate(typical ? TypicalYear : h.Year, h.Month, h.Day)))
        {
            if (job.Days.Find(day.Key) >= 0)
            {
                continue;
            }

            int row = job.Days.RowOf(day.Key);
            double[][] values = [.. day.Select(h => h.Values)];
            thin += values.Length < FewestHours ? 1 : 0;
            Set(Hourly.Temperature, Quantity.TmaxC, v => v.Max());
            Set(Hourly.Temperature, Quantity.TminC, v => v.Min());
            Set(Hourly.Humidity, Quantity.RhMaxPercent, v => Math.Min(100, v.Max()));
            Set(Hourly.Humidity, Quantity.RhMinPercent, v => Math.Min(100, v.Min()));
            Set(Hourly.DewPoint, Quantity.DewPointC, v => v.Average());
            Set(Hourly.Wind, Quantity.WindMs, v => v.Average());
            Set(Hourly.Radiation, Quantity.RadiationMjM2, v => Unit.WattHour.Kept(v.Sum() * HoursOfDay / v.Length));
            Set(Hourly.Rain, Quantity.RainMm, v => v.Sum() * HoursOfDay / v.Length);

            void Set(Hourly hourly, Quantity quantity, Func<double[], double> daily)
            {
                double[] known = [.. values.Select(v => v[(int)hourly]).Where(v => !double.IsNaN(v))];
                if (known.Length >= FewestHours)
                {
                    job.Days.Set(row, quantity, daily(known));
                }
            }
        }

        if (thin > 0)
        {
            job.Warn($"{thin} days have fewer than {FewestHours} hours and are left out.");
        }

        job.Assumed($"EnergyPlus weather files do not say how high the wind is measured: {WindHeightM} m taken, as EnergyPlus does.");
    }
}
