using System.Globalization;
using NodaTime;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>Any delimited table with one row a day, read by the columns that a person names. Lines before the header are passed
/// over.</summary>
internal static class NamedColumns
{
    private const int MostHeadLines = 200;
    private static readonly char[] Delimiters = [',', ';', '\t', DelimitedText.Blanks];

    public static void Read(ReadingJob job)
    {
        if (job.Options.Columns is not { } map)
        {
            job.Problem(1, 0, "", $"each column named: {string.Join(", ", ColumnMap.Words)}", "the columns of the table are not named");
            return;
        }

        string[] names = [.. map.Dates.Values, .. map.Values.Select(value => value.Column)];
        bool byNumber = names.All(name => NumberOf(name) is not null);
        if (byNumber)
        {
            ReadRows(job, map, FirstRow(job.Text, names.Max(name => NumberOf(name)!.Value)), hasHeader: false);
        }
        else if (Header(job.Text, names) is { } header)
        {
            ReadRows(job, map, header, hasHeader: true);
        }
        else
        {
            Missing(job, names);
        }
    }

    private static DelimitedText? Header(string text, string[] names)
    {
        foreach (char delimiter in Delimiters)
        {
            DelimitedText lines = new(text, delimiter);
            for (int line = 0; line < MostHeadLines && lines.Next(); line++)
            {
                if (Array.TrueForAll(names, name => FieldOf(lines, name) >= 0))
                {
                    return lines;
                }
            }
        }

        return null;
    }

    private static DelimitedText FirstRow(string text, int columns)
    {
        foreach (char delimiter in Delimiters)
        {
            DelimitedText lines = new(text, delimiter);
            if (lines.Next() && lines.Count >= columns)
            {
                return lines;
            }
        }

        DelimitedText first = new(text, ',');
        first.Next();
        return first;
    }

    /// <summary>Points at the line that has most of the names, and at the first that it lacks.</summary>
    private static void Missing(ReadingJob job, string[] names)
    {
        DelimitedText best = new(job.Text, ',');
        best.Next();
        int most = 0;
        foreach (char delimiter in Delimiters)
        {
            DelimitedText lines = new(job.Text, delimiter);
            for (int line = 0; line < MostHeadLines && lines.Next(); line++)
            {
                int found = names.Count(name => FieldOf(lines, name) >= 0);
                if (found > most)
                {
                    most = found;
                    best = new DelimitedText(job.Text, delimiter, lines.Offset, lines.Line - 1);
                    best.Next();
                }
            }
        }

        string[] headers = [.. Enumerable.Range(0, best.Count).Select(field => best[field].ToString()).Where(header => header.Length > 0)];
        string lacking = names.First(name => FieldOf(best, name) < 0);
        job.Problem(best.Line, 1, lacking, $"one of: {string.Join(", ", headers.Take(30))}",
            "no line has all the columns that are named; this one is not in the header", NearestWord.To(lacking, headers));
    }

    private static void ReadRows(ReadingJob job, ColumnMap map, DelimitedText header, bool hasHeader)
    {
        List<DayColumn> columns =
            [.. map.Values.Select(value => new DayColumn(FieldOf(header, value.Column), value.Column, value.Quantity, value.Unit))];
        int width = hasHeader ? header.Count : 1 + map.Dates.Values.Concat(map.Values.Select(v => v.Column))
            .Max(name => FieldOf(header, name));
        DelimitedText rows = hasHeader ? header.FromHere() : header.FromSelf();
        job.Found(
            $"Columns as named: {Sentence.Together(columns.Select(column =>
                (Sentence)$"{column.Name} is {(Sentence)Quantities.Title(column.Quantity)} in {column.Unit.Word}"), ", ")}.");
        new DayRows(job, rows, width, columns)
        {
            Skips = row => row.Whole.TrimStart() is ['#', ..],
            Date = row => Date(job, map, header, row),
            MissingWords = map.MissingWords,
            FillValue = map.MissingWords.Select(word => Numbers.TryRead(word, out double number) ? number : (double?)null).FirstOrDefault(
                number => number is not null),
            HasDecimalComma = map.HasDecimalComma,
            HasWiderRows = !hasHeader,
        }.Read();
    }

    private static LocalDate? Date(ReadingJob job, ColumnMap map, DelimitedText header, DelimitedText row)
    {
        int Field(string word) => map.Dates.TryGetValue(word, out string? column) ? FieldOf(header, column) : -1;
        int date = Field("date"), year = Field("year"), ofYear = Field("day of year"), month = Field("month"), day = Field("day");
        bool read;
        LocalDate found;
        if (date >= 0)
        {
            ReadOnlySpan<char> text = row[date];
            read = map.DateForm switch
            {
                "day.month.year" => Dates.TryDayMonthYear(text, out found) || TryLoose(text, dayFirst: true, out found),
                "month/day/year" => Dates.TryMonthDayYear(text, out found) || TryLoose(text, dayFirst: false, out found),
                "day-mon-year" => Dates.TryDayMonthName(text, out found),
                _ => Dates.TryIso(text, out found),
            };
        }
        else
        {
            found = default;
            read = Dates.Digits(row[year], out int y)
                && (ofYear >= 0 ? Dates.Digits(row[ofYear], out int n) && Dates.TryDayOfYear(y, n, out found)
                    : Dates.Digits(row[month], out int m) && Dates.Digits(row[day], out int d) && Dates.TryMake(y, m, d, out found));
        }

        if (read)
        {
            return found;
        }

        int at = date >= 0 ? date : year;
        job.Problem(row.Line, row.ColumnOf(at), row[at],
            date >= 0 ? (Sentence)$"a date written {map.DateForm}; other forms: {string.Join(", ", ColumnMap.DateForms)}"
                : "year and day as numbers",
                "this is not a date");
        return null;
    }

    /// <summary>1.5.2021, 01-05-2021, 1/5/2021, with or without a time of day behind it.</summary>
    private static bool TryLoose(ReadOnlySpan<char> text, bool dayFirst, out LocalDate date)
    {
        date = default;
        int blank = text.IndexOf(' ');
        string[] parts = (blank < 0 ? text : text[..blank]).ToString().Split('.', '/', '-');
        return parts.Length == 3 && Dates.Digits(parts[0], out int first) && Dates.Digits(parts[1], out int second)
            && Dates.Digits(parts[2], out int year)
            && Dates.TryMake(year, dayFirst ? second : first, dayFirst ? first : second, out date);
    }

    private static int FieldOf(DelimitedText header, string name) => NumberOf(name) is { } number ? number - 1 : header.FieldOf(name);

    private static int? NumberOf(string name) =>
        name is ['#', .. var digits] && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            && number is >= 1 and <= 500 ? number : null;
}
