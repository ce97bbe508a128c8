using System.Globalization;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather;

/// <summary>
/// One choice of <see cref="EtoOptions"/> that a person can make: its key in the survey (under <c>weather: eto:</c>), which with dashes is
/// the option of <c>et</c>, what it expects, and what it does.
/// </summary>
/// <param name="Key">The key: <c>radiation floor</c>.</param>
/// <param name="Expected">What may be written.</param>
/// <param name="Meaning">What it chooses, in one sentence.</param>
/// <param name="Apply">The options with what was written; null where it cannot be read.</param>
/// <param name="Written">What the options say, as it would be written.</param>
public sealed record EtoChoice(
    string Key, Sentence Expected, string Meaning, Func<EtoOptions, string, EtoOptions?> Apply, Func<EtoOptions, string> Written)
{
    private static readonly (string Word, VapourSource Source)[] HumiditySources =
    [
        ("vapor pressure", VapourSource.VapourPressure),
        ("dew point", VapourSource.DewPoint),
        ("humidity range", VapourSource.HumidityRange),
        ("highest humidity", VapourSource.HighestHumidity),
        ("mean humidity", VapourSource.MeanHumidity),
    ];

    /// <summary>Every choice, in the order of docs/evapotranspiration.md.</summary>
    public static ListOf<EtoChoice> All { get; } =
    [
        Number("radiation floor", 0, 1, "least Rs/Rso in the long-wave term: 0.3 (ASCE-EWRI 2005), 0 for none", o =>
            o.RelativeShortwaveFloor, (o, v) => o with { RelativeShortwaveFloor = v }),
        Word("clear sky",
            "form of clear-sky radiation: from elevation, or also from humidity and the sun's height (ASCE-EWRI 2005, appendix D)",
            [("simple", ClearSkyForm.Simple), ("full", ClearSkyForm.Full)], o => o.ClearSky, (o, v) => o with { ClearSky = v }),
        new("humidity from", $"{string.Join(", ", HumiditySources.Select(s => s.Word))}: one or several with commas",
            "what vapor pressure is found from: the first of these that a day has",
            (o, text) => Sources(text) is { } sources ? o with { VapourSources = sources } : null,
            o => string.Join(", ", o.VapourSources.Select(v => HumiditySources.First(s => s.Source == v).Word))),
        Number("albedo", 0, 1, "part of radiation that the reference grass reflects", o => o.Albedo, (o, v) => o with { Albedo = v }),
        Number("angstrom a", 0, 1, "part of the radiation above the air that reaches the ground under an overcast sky (FAO-56 eq. 35)", o =>
            o.AngstromOvercast, (o, v) => o with { AngstromOvercast = v }),
        Number("angstrom b", 0, 1, "what full sunshine adds to it (FAO-56 eq. 35)", o => o.AngstromSunshine, (o, v) =>
            o with { AngstromSunshine = v }),
        Number("temperature range factor", 0.05, 0.4,
            "factor of FAO-56 eq. 50 where radiation is not measured: 0.16 inland, 0.19 on a coast", o =>
                o.TemperatureRangeFactor, (o, v) => o with { TemperatureRangeFactor = v }),
        Number("dew point below tmin", 0, 15, "how far the dew point is below the lowest temperature where no humidity is measured, K: " +
            "0, in a dry climate 2 to 3 (FAO-56 annex 6)", o => o.DewPointBelowTminK, (o, v) => o with { DewPointBelowTminK = v }),
        Speed("assumed wind", "wind at 2 m where none is measured, instead of the mean of the record or 2 m/s", o =>
            o.AssumedWindMs, (o, v) => o with { AssumedWindMs = v }),
        Speed("least wind", "least wind at 2 m that the formula is given; FAO-56 advises 0.5 m/s for still places", o =>
            o.LeastWindMs, (o, v) => o with { LeastWindMs = v }),
        Word("temperatures alone", "the formula for days with temperatures and nothing else",
            [("hargreaves-samani", TemperatureOnlyForm.HargreavesSamani), ("penman-monteith", TemperatureOnlyForm.PenmanMonteith)], o =>
                o.TemperatureOnly, (o, v) => o with { TemperatureOnly = v }),
    ];

    /// <summary>The option of <c>et</c>: <c>--radiation-floor</c>.</summary>
    public string Option => "--" + Key.Replace(' ', '-');

    /// <summary>The choices that differ from the defaults, in words: <c>radiation floor 0; clear sky full</c>; empty where none
    /// does.</summary>
    public static string Stated(EtoOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return string.Join("; ", All.Where(c => c.Written(options) != c.Written(EtoOptions.Default))
            .Select(c => $"{c.Key} {c.Written(options)}"));
    }

    private static EtoChoice Number(string key, double least, double most, string meaning, Func<EtoOptions, double> get,
        Func<EtoOptions, double, EtoOptions> set) => new(
        key, $"a number from {least} to {most}", meaning,
        (o, text) => Numbers.TryRead(text, out double value) && value >= least && value <= most ? set(o, value) : null,
        o => get(o).ToString(CultureInfo.InvariantCulture));

    /// <summary>A wind speed; a plain number is in m/s.</summary>
    private static EtoChoice Speed(string key, string meaning, Func<EtoOptions, double?> get, Func<EtoOptions, double, EtoOptions> set)
    {
        const double MostMs = 15;
        return new(
            key, $"a wind speed from 0 to {MostMs} m/s, as 1.5 m/s or 3 mph", meaning,
            (o, text) => SpeedMs(text) is { } ms && ms is >= 0 and <= MostMs ? set(o, ms) : null,
            o => get(o) is { } ms ? string.Create(CultureInfo.InvariantCulture, $"{ms:0.###} m/s") : "the mean of the record, else 2 m/s");
    }

    private static EtoChoice Word<T>(
        string key, string meaning, (string Word, T Value)[] words, Func<EtoOptions, T> get, Func<EtoOptions, T, EtoOptions> set)
        where T : struct, Enum =>
        new(key, words.Length == 2 ? $"{words[0].Word} or {words[1].Word}"
            : (Sentence)string.Join(", ", words.Select(w => w.Word)), meaning,
            (o, text) => words.Where(w => w.Word.Equals(text.Trim(), StringComparison.OrdinalIgnoreCase)).Select(w => set(o, w.Value))
                .FirstOrDefault(),
            o => words.First(w => w.Value.Equals(get(o))).Word);

    private static double? SpeedMs(string text)
    {
        string trimmed = text.Trim();
        int length = trimmed.TakeWhile(c => char.IsAsciiDigit(c) || c is '.' or '-' or '+').Count();
        Unit? unit = length == trimmed.Length ? Unit.MetrePerSecond : Unit.Named(trimmed.AsSpan(length));
        return unit?.Dimension == Dimension.Speed && Numbers.TryRead(trimmed.AsSpan(0, length), out double value) ? unit.Kept(value) : null;
    }

    private static ListOf<VapourSource>? Sources(string text)
    {
        string[] words = text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        VapourSource[] sources = [
            .. words.SelectMany(w => HumiditySources.Where(s => s.Word.Equals(w, StringComparison.OrdinalIgnoreCase) || s.Word.Replace(
                "vapor", "vapour", StringComparison.Ordinal).Equals(w, StringComparison.OrdinalIgnoreCase)).Select(s => s.Source))];
        return words.Length > 0 && sources.Length == words.Length && sources.Distinct().Count() == sources.Length
            ? sources.ToListOf() : null;
    }
}
