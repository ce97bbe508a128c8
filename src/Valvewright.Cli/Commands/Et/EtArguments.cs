using System.CommandLine;
using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Cli.Commands.Et;

/// <summary>What was asked of the command.</summary>
/// <param name="File">The weather file; null when it is fetched.</param>
/// <param name="Service">The service to fetch from; null when a file is read.</param>
/// <param name="Reading">What the person knows about the file.</param>
/// <param name="From">First day to print.</param>
/// <param name="To">Last day to print.</param>
/// <param name="Units">Units of the answer.</param>
/// <param name="Eto">Choices for reference ET.</param>
/// <param name="Preview">Whether only the first days are wanted, as understood.</param>
/// <param name="Again">Whether to ask the service even where an answer is kept.</param>
internal sealed record EtChoices(
    string? File, WeatherService? Service, WeatherReadOptions Reading, LocalDate? From, LocalDate? To, UnitSystem Units, EtoOptions Eto,
        bool Preview, bool Again);

/// <summary>The arguments and options of <c>et</c>.</summary>
internal sealed class EtArguments
{
    /// <summary>Years that are fetched where no one says which: enough to plan with and to prove on.</summary>
    private const int YearsFetched = 10;

    /// <summary>No thermometer is older: the oldest daily series begin in the 1700s.</summary>
    private const int FirstYearOfRecords = 1651;

    private readonly Argument<string?> file = new("file")
        { Description = "A file of daily weather; its layout is recognized by its content.", Arity = ArgumentArity.ZeroOrOne };
    private readonly Option<string?> fetch = new("--fetch")
        { Description = $"Fetch from a service instead: {string.Join(" or ", WeatherServices.Words)}.", HelpName = "service" };
    private readonly Option<string?> place = new("--place")
        { Description = "Place: degrees north, degrees east, meters above sea level.", HelpName = "lat,lon,elev" };
    private readonly Option<LocalDate?> from = SiteArguments
        .Date("--from", "First day; fetching takes the last ten whole years.", FirstYearOfRecords);
    private readonly Option<LocalDate?> to = SiteArguments.Date("--to", "Last day.", FirstYearOfRecords);
    private readonly Option<string?> layout = new("--layout")
        { Description = $"Read the file as this layout: {string.Join(", ", WeatherLayouts.Words)}.", HelpName = "layout" };
    private readonly Option<string?> station = new("--station")
        { Description = "The station, if the file holds several: its number or name.", HelpName = "station" };
    private readonly Option<double?> windHeight = new("--wind-height")
        { Description = "Height of the wind measurement, m.", HelpName = "m" };
    private readonly Option<string?> fileUnits = new("--file-units")
        { Description = "Units of a file that does not state them: metric or us.", HelpName = "system" };
    private readonly Option<string[]> columnUnit = new("--column-unit")
        { Description = "Unit of one column, for example wind=km/h. May be repeated.", HelpName = "column=unit" };
    private readonly Option<string?> units = new("--units")
        { Description = "Units to print in: metric (default) or us.", HelpName = "system" };
    private readonly ListOf<(EtoChoice Choice, Option<string?> Option)> choices = EtoChoice.All.Select(
        c => (c, new Option<string?>(c.Option)
            { Description =
                $"{char.ToUpperInvariant(c.Meaning[0])}{c.Meaning[1..]}. Expected: {c.Expected}. Default: {c.Written(EtoOptions.Default)}.",
                    HelpName = "choice" })).ToListOf();
    private readonly Option<string[]> columns = new("--columns")
        { Description =
            $"For a table that no layout knows: which column is what, as \"tmax=Max temp [F]\". May be repeated. Words: {string.Join(", ", ColumnMap.Words)}.", HelpName = "word=column [unit]" };
    private readonly Option<bool> preview = new("--preview") { Description = "Print only the first days as understood." };
    private readonly Option<bool> anew = new("--refresh") { Description = "Download again, even if cached." };

    public void AddTo(Command command)
    {
        command.Arguments.Add(file);
        foreach (Option option in new Option[] { fetch, place, from, to, layout, station, windHeight, fileUnits, columnUnit, columns,
            preview, units, anew }.Concat(choices.Select(c => c.Option)))
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Reads and checks them.</summary>
    /// <exception cref="ProblemsException">Some make no sense.</exception>
    public EtChoices Read(ParseResult parse)
    {
        List<Problem> problems = [];
        string? path = parse.GetValue(file);
        WeatherService? service = Word(problems, "--fetch", parse.GetValue(fetch), WeatherServices.Words, WeatherServices.Named);
        Place? where = PlaceOf(problems, parse.GetValue(place));
        LocalDate? first = parse.GetValue(from), last = parse.GetValue(to);
        double? height = parse.GetValue(windHeight);
        if (height is { } metres && !(metres is >= 0.5 and <= 200))
        {
            problems.Add(Wrong("--wind-height", $"{metres}", "0.5 to 200 m", "no wind is measured there"));
        }

        EtoOptions eto = Chosen(problems, parse);
        WeatherReadOptions reading = new()
        {
            Layout = Word(problems, "--layout", parse.GetValue(layout), WeatherLayouts.Words, WeatherLayouts.Named),
            Place = where,
            WindHeightM = height,
            Units = Word(problems, "--file-units", parse.GetValue(fileUnits), ["metric", "us"], SystemNamed),
            ColumnUnits = ColumnUnits(problems, parse.GetValue(columnUnit) ?? []),
            Station = parse.GetValue(station),
            Columns = Columns(problems, parse.GetValue(columns) ?? []),
        };
        UnitSystem shown = Word(problems, "--units", parse.GetValue(units), ["metric", "us"], SystemNamed) ?? UnitSystem.Metric;
        if (service is not null)
        {
            int lastYear = SystemClock.Instance.GetCurrentInstant().InUtc().Year - 1;
            last ??= new LocalDate(Math.Max(lastYear, first?.Year ?? 0), 12, 31);
            first ??= new LocalDate(last.Value.Year - YearsFetched + 1, 1, 1);
        }

        CheckSource(problems, path, parse.GetValue(fetch), where, first, last);
        return problems.Count > 0
            ? throw new ProblemsException(problems)
            : new EtChoices(service is null ? path : null, service, reading, first, last, shown, eto, parse.GetValue(preview),
                parse.GetValue(anew));
    }

    private EtoOptions Chosen(List<Problem> problems, ParseResult parse)
    {
        EtoOptions eto = EtoOptions.Default;
        foreach ((EtoChoice choice, Option<string?> option) in choices)
        {
            if (parse.GetValue(option) is { } text)
            {
                EtoOptions? with = choice.Apply(eto, text);
                eto = with ?? eto;
                if (with is null)
                {
                    problems.Add(Wrong(choice.Option, text, choice.Expected, "no such choice"));
                }
            }
        }

        return eto;
    }

    private static void CheckSource(List<Problem> problems, string? path, string? service, Place? where, LocalDate? first, LocalDate? last)
    {
        if (path is null == service is null)
        {
            problems.Add(Wrong("et", path ?? "", "a file, or --fetch and a service",
                path is null ? "nothing to read" : "both a file and a service are named"));
        }
        else if (service is not null && (where is null))
        {
            problems.Add(Wrong("--fetch", service, "--place with it", "it is not said where"));
        }

        if (first is { } from && last is { } to && from > to)
        {
            problems.Add(Wrong("--to", $"{to:uuuu-MM-dd}", $"a day from {from:uuuu-MM-dd} on", "the last day is before the first"));
        }
    }

    private static UnitSystem? SystemNamed(string word) => word.ToLowerInvariant() switch
    {
        "metric" => UnitSystem.Metric,
        "us" => UnitSystem.UsCustomary,
        _ => null,
    };

    private static T? Word<T>(List<Problem> problems, string option, string? word, IEnumerable<string> words, Func<string, T?> named)
        where T : struct
    {
        T? value = word is null ? null : named(word);
        if (word is not null && value is null)
        {
            problems.Add(new Problem(option, 0, 0, word, string.Join(", ", words), NearestWord.To(word, words), "no such choice"));
        }

        return value;
    }

    private static Place? PlaceOf(List<Problem> problems, string? text)
    {
        if (text is null)
        {
            return null;
        }

        string[] parts = text.Split(',');
        double[] numbers = [
            .. parts.Select(p => double.TryParse(p, NumberStyles.Float, CultureInfo.InvariantCulture, out double n) ? n : double.NaN)];
        if (numbers.Length == 3 && Math.Abs(numbers[0]) <= 90 && Math.Abs(numbers[1]) <= 180 && numbers[2] is >= -450 and <= 9000)
        {
            return new Place(numbers[0], numbers[1], numbers[2]);
        }

        bool swapped = numbers.Length == 3 && Math.Abs(numbers[0]) <= 180 && Math.Abs(numbers[1]) <= 90;
        problems.Add(Wrong(
            "--place", text, "latitude -90 to 90, longitude -180 to 180, elevation in m: 47.4,8.5,444",
            swapped ? "not a place; are latitude and longitude swapped?" : "not a place"));
        return null;
    }

    private static ColumnMap? Columns(List<Problem> problems, string[] texts)
    {
        List<(string, string)> entries = [];
        foreach (string text in texts)
        {
            int sign = text.IndexOf('=', StringComparison.Ordinal);
            entries.Add(sign < 0 ? (text, "") : (text[..sign], text[(sign + 1)..]));
        }

        return entries.Count == 0 ? null : ColumnMap.Read(entries, (word, found, expected, nearest, message) =>
            problems.Add(new Problem("--columns", 0, 0, found, expected, nearest, $"{word}: {message}")));
    }

    private static Dictionary<string, string> ColumnUnits(List<Problem> problems, string[] texts)
    {
        Dictionary<string, string> units = [];
        foreach (string text in texts)
        {
            int sign = text.IndexOf('=');
            if (sign < 1 || sign == text.Length - 1 || !units.TryAdd(text[..sign].Trim(), text[(sign + 1)..].Trim()))
            {
                problems.Add(Wrong("--column-unit", text, "column=unit, each column once", "this does not name a column and its unit"));
            }
        }

        return units;
    }

    private static Problem Wrong(string option, string found, Sentence expected, Sentence message) =>
        new(option, 0, 0, found, expected, null, message);
}
