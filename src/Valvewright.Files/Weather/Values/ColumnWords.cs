using Valvewright.Files.Problems;

namespace Valvewright.Files.Weather.Values;

/// <summary>The names that a plain CSV may use for its columns.</summary>
internal static class ColumnWords
{
    /// <summary>Words for the date column.</summary>
    public static readonly string[] Date = ["date", "day"];

    private static readonly Dictionary<string, Quantity> Words = ByWord(
        (Quantity.TmaxC, "tmax t_max temp_max max_temp temperature_max max_temperature maximum_temperature air_temp_max max_air_temp tx"),
        (Quantity.TminC, "tmin t_min temp_min min_temp temperature_min min_temperature minimum_temperature air_temp_min min_air_temp tn"),
        (Quantity.RainMm, "rain rainfall precipitation precip prcp"),
        (Quantity.RhMaxPercent, "rhmax rh_max max_rh humidity_max max_humidity relative_humidity_max"),
        (Quantity.RhMinPercent, "rhmin rh_min min_rh humidity_min min_humidity relative_humidity_min"),
        (Quantity.RhMeanPercent, "rhmean rh_mean mean_rh rh rh_avg rhavg humidity humidity_mean relative_humidity relative_humidity_mean"),
        (Quantity.VapourPressureKpa, "ea vapour_pressure vapor_pressure"),
        (Quantity.DewPointC, "tdew t_dew dew_point dewpoint dew_point_mean"),
        (Quantity.RadiationMjM2, "rs radiation solar_radiation solar global_radiation"),
        (Quantity.SunshineHours, "sunshine sunshine_duration sun"),
        (Quantity.WindMs, "wind wind_speed windspeed wind_mean wind_2m wind_10m wind_speed_2m wind_speed_10m"),
        (Quantity.PublishedEtoMm, "eto et0 eto_published published_eto reference_et pe pet"));

    /// <summary>All names of columns that are still wanted, for finding the nearest.</summary>
    public static IEnumerable<string> For(Func<Quantity, bool> wanted) =>
        Words.Where(entry => wanted(entry.Value)).Select(entry => entry.Key);

    /// <summary>Reads a column's header: <c>tmax_c</c>, <c>rain [in]</c>, <c>tmax (F)</c>, <c>wind</c>.</summary>
    public static ColumnHeader Read(ReadOnlySpan<char> header)
    {
        string text = header.Trim().ToString();
        (string name, string? unit) = Brackets(text);
        string[] tokens = name.ToLowerInvariant().Split(['_', ' ', '-', '.', '/'], StringSplitOptions.RemoveEmptyEntries);
        for (int taken = Math.Min(tokens.Length, 6); taken > 0; taken--)
        {
            string word = string.Join('_', tokens[..taken]);
            if (!Words.TryGetValue(word, out Quantity quantity))
            {
                continue;
            }

            string rest = string.Join('_', tokens[taken..]);
            string? unitText = unit ?? (rest.Length == 0 ? null : rest);
            bool plain = rest.Length == 0 || (unit is null && Unit.Named(rest) is not null);
            return new ColumnHeader(text, word, quantity, unitText, plain, HeightOf(word));
        }

        return new ColumnHeader(text, string.Join('_', tokens), null, unit, false, null);
    }

    private static (string Name, string? Unit) Brackets(string text)
    {
        int open = text.IndexOfAny(['[', '(']);
        return open > 0 && (text[^1] is ']' or ')') && open < text.Length - 1
            ? (text[..open], text[(open + 1)..^1].Trim())
            : (text, null);
    }

    private static double? HeightOf(string word) =>
        word.EndsWith("_10m", StringComparison.Ordinal) ? 10 : word.EndsWith("_2m", StringComparison.Ordinal) ? 2 : null;

    private static Dictionary<string, Quantity> ByWord(params (Quantity Quantity, string Words)[] quantities) =>
        quantities.SelectMany(entry => entry.Words.Split(' '), (entry, word) => (word, entry.Quantity)).ToDictionary();
}

/// <summary>What a column's header says.</summary>
/// <param name="Text">The header as written.</param>
/// <param name="Name">The name in it, without the unit where that could be told.</param>
/// <param name="Quantity">The quantity that the name, or its beginning, stands for; null where it stands for none.</param>
/// <param name="UnitText">What is where a unit belongs.</param>
/// <param name="Plain">Whether name and unit are all that the header holds.</param>
/// <param name="WindHeightM">Height in the name, m.</param>
internal sealed record ColumnHeader(string Text, string Name, Quantity? Quantity, string? UnitText, bool Plain, double? WindHeightM)
{
    /// <summary>The nearest name among those still wanted; short names are no misspellings.</summary>
    public string? Nearest(Func<Quantity, bool> wanted) => Name.Length < 4 ? null : NearestWord.To(Name, ColumnWords.For(wanted));
}
