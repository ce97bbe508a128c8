using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
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

    /// <summary>Publisher and licence.</summary>
    public string Source { get; set; } = "";

    public bool HasProblems => problems.Count > 0;

    /// <summary>Whether so many problems were met that more would tell nothing new.</summary>
    public bool Enough => problems.Count >= ProblemsShown;

    public void Problem(int line, int column, ReadOnlySpan<char> found, string expected, string message, string? nearest = null)
    {
        if (Enough)
        {
            problemsNotShown++;
            return;
        }

        problems.Add(new Problem(File, line, column, Cut(found), Cut(expected), nearest, Cut(message)));
    }

    public void Found(string text) => notes.Add(new WeatherNote(WeatherNoteKind.Found, text));

    public void Assumed(string text) => notes.Add(new WeatherNote(WeatherNoteKind.Assumed, text));

    public void Warn(string text) => notes.Add(new WeatherNote(WeatherNoteKind.Warning, text));

    /// <summary>Closes the reading: checks that there is something to work with, settles place and wind height, and says what was taken.</summary>
    public WeatherReading Finish(WeatherLayout layout)
    {
        if (!HasProblems)
        {
            DayChecks.Run(this);
        }

        if (HasProblems)
        {
            if (problemsNotShown > 0)
            {
                problems.Add(new Problem(File, 0, 0, "", "", null, $"and {problemsNotShown} more problems of the kind"));
            }

            return new WeatherReading(layout, null, notes.ToListOf(), problems.ToListOf());
        }

        (Place place, bool isAssumed) = SettlePlace();
        double windHeightM = SettleWindHeight();
        ListOf<DailyWeather> days = Days.Days();
        notes.Insert(0, new WeatherNote(WeatherNoteKind.Found, $"Read as {layout.Title()}: {days.Count} days, {days[0].Date:uuuu-MM-dd} to {days[^1].Date:uuuu-MM-dd}."));
        string station = Station ?? Path.GetFileNameWithoutExtension(File);
        return new WeatherReading(layout, new WeatherRecord(station, place, windHeightM, days, Source) { IsPlaceAssumed = isAssumed }, notes.ToListOf(), []);
    }

    /// <summary>Names in a damaged file can be as long as the file.</summary>
    private static string Cut(ReadOnlySpan<char> text) => text.Length > LongestText ? $"{text[..LongestText]}..." : text.ToString();

    private (Place Place, bool IsAssumed) SettlePlace()
    {
        if (Options.Place is { } given)
        {
            return (given, false);
        }

        if (Options.Otherwise is { } otherwise && Place is null)
        {
            Assumed("The file does not say where its station stands: the site's own place and elevation taken.");
            return (otherwise, true);
        }

        if (Options.Otherwise is { } near && double.IsNaN(Place!.ElevationM))
        {
            Assumed("The file does not say how high its station stands: the site's own elevation taken.");
            return (Place with { ElevationM = near.ElevationM }, true);
        }

        if (Place is null)
        {
            Warn("The file does not say where the station stands; ETo needs latitude and elevation.");
        }

        return (Place ?? new Place(double.NaN, double.NaN, double.NaN), false);
    }

    private double SettleWindHeight()
    {
        if (Options.WindHeightM is { } given)
        {
            return given;
        }

        if (WindHeightM is null && Days.Has(Quantity.WindMs))
        {
            Assumed($"The file does not say how high the wind is measured: {StandardWindHeightM} m taken.");
        }

        return WindHeightM ?? StandardWindHeightM;
    }
}
