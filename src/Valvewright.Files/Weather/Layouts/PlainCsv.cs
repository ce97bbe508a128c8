using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>
/// One row a day, named columns with their units in the header. Lines before the header that begin with <c>#</c> may say where the
/// weather is from: <c># latitude: 47.4</c>, <c># longitude: 8.5</c>, <c># elevation_m: 444</c>, <c># wind_height_m: 10</c>,
/// <c># station: ...</c>, <c># source: ...</c>.
/// </summary>
internal static class PlainCsv
{
    private static readonly string[] FactWords = ["station", "source", "latitude", "longitude", "elevation_m", "wind_height_m"];

    public static void Read(ReadingJob job)
    {
        DelimitedText lines = new(job.Text, ',');
        if (!SkipFacts(job, lines))
        {
            job.Problem(lines.Line, 0, "", "a header line with column names", "the file has no table");
            return;
        }

        char delimiter = DelimitedText.DelimiterOf(lines.Whole);
        DelimitedText table = new(job.Text, delimiter, lines.Offset, lines.Line - 1);
        table.Next();
        int width = table.Count;
        int dateField = DateField(table);
        if (dateField < 0)
        {
            job.Problem(table.Line, 1, table.Whole, "a column named date", "no column is named date",
                NearestWord.To(table[0].ToString(), ColumnWords.Date));
            return;
        }

        List<HeaderColumn> found = PlainHeader.Read(job, table, dateField);
        if (job.HasProblems)
        {
            return;
        }

        IReadOnlyList<DayColumn> columns = PlainUnits.Settle(job, table, found);
        if (!job.HasProblems)
        {
            new DayRows(job, table, width, columns) { Date = row => Date(job, row, dateField) }.Read();
        }
    }

    private static int DateField(DelimitedText header) =>
        ColumnWords.Date.Select(word => header.FieldOf(word)).FirstOrDefault(static field => field >= 0, -1);

    private static LocalDate? Date(ReadingJob job, DelimitedText row, int field)
    {
        if (Dates.TryIso(row[field], out LocalDate date))
        {
            return date;
        }

        bool parted = Dates.TryMonthDayYear(row[field], out _);
        job.Problem(
            row.Line, row.ColumnOf(field), row[field], "a date as 2021-12-31",
            parted ? "day and month could be mistaken for each other" : "this is not a date");
        return null;
    }

    /// <summary>Reads the lines that begin with #; stops on the header.</summary>
    private static bool SkipFacts(ReadingJob job, DelimitedText lines)
    {
        double latitude = double.NaN, longitude = double.NaN, elevation = double.NaN;
        bool header = false;
        while (!header && lines.Next())
        {
            header = lines.Whole.TrimStart()[0] != '#';
            if (!header && Fact(lines.Whole) is (string key, string value))
            {
                switch (key)
                {
                    case "station": job.Station = value; break;
                    case "source": job.Source = value; break;
                    case "latitude": latitude = Number(job, lines, key, value, -90, 90); break;
                    case "longitude": longitude = Number(job, lines, key, value, -180, 180); break;
                    case "elevation_m": elevation = Number(job, lines, key, value, -450, 9000); break;
                    case "wind_height_m": job.WindHeightM = Number(job, lines, key, value, 0.5, 200); break;
                    default:
                        if (NearestWord.To(key, FactWords) is { } nearest)
                        {
                            job.Problem(lines.Line, 1, key, string.Join(", ", FactWords), "no such fact", nearest);
                        }

                        break;
                }
            }
        }

        if (!double.IsNaN(latitude))
        {
            job.Place = new Place(latitude, longitude, elevation);
        }

        return header;
    }

    private static (string Key, string Value)? Fact(ReadOnlySpan<char> line)
    {
        ReadOnlySpan<char> text = line.Trim().TrimStart('#');
        int colon = text.IndexOf(':');
        return colon < 1 ? null : (text[..colon].Trim().ToString().ToLowerInvariant(), text[(colon + 1)..].Trim().ToString());
    }

    private static double Number(ReadingJob job, DelimitedText line, string key, string value, double least, double most)
    {
        if (Numbers.TryRead(value, out double number) && number >= least && number <= most)
        {
            return number;
        }

        job.Problem(line.Line, 1, value, $"a number from {least} to {most}", $"{key} is not such a number");
        return double.NaN;
    }
}
