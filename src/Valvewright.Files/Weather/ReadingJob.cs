using System.Globalization;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather;

/// <summary>One file being read: its text, what the person said about it, and what has come of it so far.</summary>
internal sealed class ReadingJob(string file, string text, WeatherReadOptions options)
{
    /// <summary>Wind height that agrees with the reference equation, m (FAO-56 chapter 3: 2 m).</summary>
    public const double StandardWindHeightM = 2;

    private const int ProblemsShown = 20;
    private const int LongestText = 400;

    // Coordinates rounded to a hundredth, elevations of another benchmark: not worth a warning.
    private const double NearKm = 2;
    private const double NearM = 20;
    private const double KmPerDegree = 111.2;
    private readonly List<Problem> problems = [];
    private readonly List<WeatherNote> notes = [];
    private int problemsNotShown;

    public string File { get; } = file;

    public string Text { get; } = text;

    public WeatherReadOptions Options { get; } = options;

    public DayTable Days { get; } = new();

    /// <summary>Station name as the file gives it.</summary>
    public string? Station { get; set; }

    /// <summary>Place as the file gives it.</summary>
    public Place? Place { get; set; }

    /// <summary>Height of the wind as the file or the layout's documentation gives it, m.</summary>
    public double? WindHeightM { get; set; }

    /// <summary>Whether that height is only usual for the layout.</summary>
    public bool IsWindHeightAssumed { get; set; }

    /// <summary>Publisher and license.</summary>
    public string Source { get; set; } = "";

    public bool HasProblems => problems.Count > 0;

    /// <summary>Whether so many problems were met that more would tell nothing new.</summary>
    public bool Enough => problems.Count >= ProblemsShown;

    public void Problem(int line, int column, ReadOnlySpan<char> found, Sentence expected, Sentence message, string? nearest = null)
    {
        if (Enough)
        {
            problemsNotShown++;
            return;
        }

        problems.Add(new Problem(File, line, column, Cut(found), Cut(expected), nearest, Cut(message)));
    }

    public void Found(Sentence text) => notes.Add(new WeatherNote(WeatherNoteKind.Found, text));

    public void Assumed(Sentence text) => notes.Add(new WeatherNote(WeatherNoteKind.Assumed, text));

    public void Warn(Sentence text) => notes.Add(new WeatherNote(WeatherNoteKind.Warning, text));

    /// <summary>Closes the reading: checks that there is something to work with, settles place and wind height, and says what was
    /// taken.</summary>
    public WeatherReading Finish(WeatherLayout layout)
    {
        if (!HasProblems)
        {
            DayChecks.Run(this);
        }

        (Place place, bool isPlaceAssumed) = SettlePlace();
        double windHeightM = SettleWindHeight();
        if (HasProblems)
        {
            if (problemsNotShown > 0)
            {
                problems.Add(new Problem(File, 0, 0, "", "", null, $"and {problemsNotShown} more problems of the kind"));
            }

            return new WeatherReading(layout, null, notes.ToListOf(), problems.ToListOf());
        }

        ListOf<DailyWeather> days = Days.Days();
        notes.Insert(0, new WeatherNote(WeatherNoteKind.Found,
            $"Read as {(Sentence)layout.Title()}: {days.Count} days, {days[0].Date:uuuu-MM-dd} to {days[^1].Date:uuuu-MM-dd}."));
        WeatherRecord record = new(Station ?? Path.GetFileNameWithoutExtension(File), place, windHeightM, days, Source)
        {
            IsPlaceAssumed = isPlaceAssumed,
            IsWindHeightAssumed = IsWindHeightAssumed && Options.WindHeightM is null && Days.Has(Quantity.WindMs),
        };
        return new WeatherReading(layout, record, notes.ToListOf(), []);
    }

    /// <summary>Names in a damaged file can be as long as the file.</summary>
    private static Sentence Cut(Sentence said) => said.Text.Length > LongestText ? Cut(said.Text.AsSpan()) : said;

    private static string Cut(ReadOnlySpan<char> text) => text.Length > LongestText ? $"{text[..LongestText]}..." : text.ToString();

    private (Place Place, bool IsAssumed) SettlePlace()
    {
        if (Options.Place is { } given)
        {
            CompareWithFile(given);
            return (given, false);
        }

        if (Options.Otherwise is { } otherwise && Place is null)
        {
            Assumed("The file does not give the station's place: the site's place and elevation are used.");
            return (otherwise, true);
        }

        if (Options.Otherwise is { } near && double.IsNaN(Place!.ElevationM))
        {
            Assumed("The file does not give the station's elevation: the site's elevation is used.");
            return (Place with { ElevationM = near.ElevationM }, true);
        }

        if (Place is null)
        {
            Warn("The file does not give the station's place; ETo needs latitude and elevation.");
        }

        return (Place ?? new Place(double.NaN, double.NaN, double.NaN), false);
    }

    /// <summary>Says so where a given place overrides the file's own.</summary>
    private void CompareWithFile(Place given)
    {
        if (Place is not { } own || own == given)
        {
            return;
        }

        double apartKm = double.IsNaN(own.LongitudeDeg) || double.IsNaN(given.LongitudeDeg)
            ? Math.Abs(own.LatitudeDeg - given.LatitudeDeg) * KmPerDegree : own.KmTo(given);
        double higherM = double.IsNaN(own.ElevationM) ? 0 : given.ElevationM - own.ElevationM;
        Sentence sense = higherM < 0 ? "lower" : "higher";
        Sentence text = (
            $"The place given ({Written(given)}) is used instead of the file's own ({Written(own)}): {apartKm:0.#} km away, {Math.Abs(higherM):0} m {sense}.");
        if (apartKm > NearKm || Math.Abs(higherM) > NearM)
        {
            Warn(text);
        }
        else
        {
            Found(text);
        }
    }

    private static Sentence Written(Place place)
    {
        Sentence elevation = double.IsNaN(place.ElevationM) ? "no elevation" : (Sentence)$"{place.ElevationM:0.#} m";
        return $"{place.LatitudeDeg:0.####}, {place.LongitudeDeg:0.####}, {elevation}";
    }

    private double SettleWindHeight()
    {
        bool hasWind = Days.Has(Quantity.WindMs);
        if (Options.WindHeightM is { } given)
        {
            if (hasWind && WindHeightM is { } stated && stated != given)
            {
                Warn($"The wind height given, {given:0.##} m, is used instead of the file's own, {stated:0.##} m.");
            }

            return given;
        }

        if (WindHeightM is null && hasWind)
        {
            if (Options.IsWindHeightNeeded)
            {
                Problem(
                    0, 0, "wind without a height", "'wind height' under 'weather' in the survey: 10 m at most airports and national " +
                        "networks, 2 m at most agricultural stations",
                    "the file does not say how high the wind is measured");
            }

            IsWindHeightAssumed = true;
            Assumed(
                $"The file does not say how high the wind is measured: {StandardWindHeightM} m taken. Ask the agency: wind measured at 10 m is a quarter weaker at 2 m.");
        }

        return WindHeightM ?? StandardWindHeightM;
    }
}
