using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather;

/// <summary>
/// Which column of a table is what: our word, their header (or <c>#3</c> for the third column of a table without a header), and in
/// brackets the unit, or for a date how it is written.
/// </summary>
/// <remarks>
/// <c>tmax = Max. temp. [F]</c>; <c>date = Day [day/month/year]</c>; <c>missing = -99, n/a</c>; <c>decimal = comma</c>.
/// </remarks>
public sealed record ColumnMap
{
    /// <summary>How a date may be written.</summary>
    public static readonly string[] DateForms = ["year-month-day", "day.month.year", "month/day/year", "day-mon-year"];

    private static readonly (string Word, Quantity Quantity)[] Known =
    [
        ("tmax", Quantity.TmaxC), ("tmin", Quantity.TminC), ("rain", Quantity.RainMm), ("rh max", Quantity.RhMaxPercent),
            ("rh min", Quantity.RhMinPercent),
        ("rh mean", Quantity.RhMeanPercent), ("vapor pressure", Quantity.VapourPressureKpa), ("dew point", Quantity.DewPointC),
            ("radiation", Quantity.RadiationMjM2),
        ("sunshine", Quantity.SunshineHours), ("wind", Quantity.WindMs), ("eto", Quantity.PublishedEtoMm),
    ];

    private static readonly string[] DateWords = ["date", "year", "month", "day", "day of year"];

    /// <summary>Every word that can be given, in the order that the documentation lists them.</summary>
    public static IReadOnlyList<string> Words { get; } = [.. DateWords, .. Known.Select(known => known.Word), "missing", "decimal"];

    /// <summary>Their header of the date, and of the parts of a date that stands in several columns.</summary>
    internal IReadOnlyDictionary<string, string> Dates { get; private init; } = new Dictionary<string, string>();

    /// <summary>One of <see cref="DateForms"/>.</summary>
    internal string DateForm { get; private init; } = DateForms[0];

    /// <summary>Their header and unit of each quantity.</summary>
    internal IReadOnlyList<(string Column, Quantity Quantity, Unit Unit)> Values { get; private init; } = [];

    /// <summary>Words and numbers for "not measured".</summary>
    internal string[] MissingWords { get; private init; } = [];

    /// <summary>Whether numbers are written with a decimal comma.</summary>
    internal bool HasDecimalComma { get; private init; }

    /// <summary>Reads a map; problems name the word they are about.</summary>
    /// <param name="entries">Our word and what was written for it.</param>
    /// <param name="refuse">Takes each problem: the word, what was found, what was expected, the nearest choice, what is wrong.</param>
    /// <returns>The map; null after a problem.</returns>
    public static ColumnMap? Read(
        IReadOnlyList<(string Word, string Written)> entries, Action<string, string, Sentence, string?, Sentence> refuse)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(refuse);
        bool good = true;
        Dictionary<string, string> dates = [];
        List<(string, Quantity, Unit)> values = [];
        ColumnMap map = new();
        foreach ((string word, string written) in entries)
        {
            string key = word.Trim().ToLowerInvariant().Replace('_', ' ');
            (string column, string? bracket) = Parts(written);
            if (!Words.Contains(key))
            {
                Refuse(word, word, $"one of: {string.Join(", ", Words)}", NearestWord.To(key, Words), "no such column word");
            }
            else if (column.Length == 0 || dates.ContainsKey(key) || values.Exists(v => WordOf(v.Item2) == key))
            {
                Refuse(word, written, "the header of one column, as the file writes it", null,
                    column.Length == 0 ? (Sentence)"no column is named" : "the word is given twice");
            }
            else if (key == "missing")
            {
                map = map with { MissingWords = written
                    .Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) };
            }
            else if (key == "decimal")
            {
                map = map with { HasDecimalComma = column == "comma" };
                if (column is not ("comma" or "point")) Refuse(
                    word, written, "comma or point", NearestWord.To(column, ["comma", "point"]), "no such decimal sign");
            }
            else if (DateWords.Contains(key))
            {
                dates.Add(key, column);
                map = map with { DateForm = bracket ?? map.DateForm };
                if (bracket is not null && !DateForms.Contains(bracket)) Refuse(word, bracket, $"one of: {string.Join(", ", DateForms)}",
                    NearestWord.To(bracket, DateForms), "no such way to write a date");
            }
            else
            {
                AddValue(word, Known.First(known => known.Word == key).Quantity, column, bracket);
            }
        }

        if (good && !(dates.ContainsKey("date") || (
            dates.ContainsKey("year") && (dates.ContainsKey("day of year") || (dates.ContainsKey("month") && dates.ContainsKey("day"))))))
        {
            Refuse("date", "", "date; or year and day of year; or year, month and day", null, "no column has the date");
        }

        return good ? map with { Dates = dates, Values = values } : null;

        void AddValue(string word, Quantity quantity, string column, string? unitText)
        {
            Dimension dimension = Quantities.DimensionOf(quantity);
            string choices = Unit.ChoicesFor(dimension);
            Unit? unit = unitText is not null ? Unit.WithTenths(unitText) : dimension == Dimension.Percent ? Unit.PerCent : null;
            if (unit?.Dimension == dimension)
            {
                values.Add((column, quantity, unit));
                return;
            }

            Refuse(word, unitText ?? column,
                $"the unit in brackets, as {column} [{choices.Split(", ")[0]}] (one of {choices}; 0.1 before it for tenths)",
                    unitText is null ? null : NearestWord.To(unitText, choices.Split(", ")),
                unitText is null ? (Sentence)"the column's unit is not stated"
                    : $"this is not a unit of {(Sentence)Quantities.Title(quantity)}");
        }

        void Refuse(string word, string found, Sentence expected, string? nearest, Sentence message)
        {
            good = false;
            refuse(word, found, expected, nearest, message);
        }
    }

    private static string WordOf(Quantity quantity) => Known.First(known => known.Quantity == quantity).Word;

    private static (string Column, string? Bracket) Parts(string written)
    {
        string text = written.Trim();
        int open = text.LastIndexOf('[');
        return open >= 0 && text[^1] == ']' ? (text[..open].Trim(), text[(open + 1)..^1].Trim()) : (text, null);
    }
}
