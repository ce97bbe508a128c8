using Valvewright.Files.Problems;

namespace Valvewright.Work;

/// <summary>What a person must change before the work can be done.</summary>
public abstract record Refusal
{
    private Refusal(string kind, Sentence what, ListOf<Problem> problems) => (Kind, What, Problems) = (kind, what, problems);

    /// <summary>A word for programs; docs/api.md lists them.</summary>
    public string Kind { get; }

    /// <summary>One sentence for people, with its full stop.</summary>
    public Sentence What { get; }

    /// <summary>The same place by place, for a terminal or an editor; at least one.</summary>
    public ListOf<Problem> Problems { get; }

    /// <summary>The survey names no weather.</summary>
    /// <param name="Site">The site's name.</param>
    public sealed record WeatherNotNamed(string Site) : Refusal(
        "weather-not-named",
        "The survey names no weather. Needs and plans rest on it.",
        [new Problem(Site, 0, 0, "", "'weather:' with 'file:' or 'service:' in the site file", null, "The survey names no weather")]);

    /// <summary>The survey names a weather file that was not sent with it.</summary>
    /// <param name="Name">The file's name, without folders.</param>
    public sealed record WeatherMissing(string Name) : Refusal(
        "weather-missing",
        "The survey names a weather file that has not been sent. Send it to the site's weather address.",
        [new Problem(Name, 0, 0, "", "the file that the survey names", null, "The weather file has not been sent")]);

    /// <summary>The weather cannot be used.</summary>
    /// <param name="Reasons">Why, place by place.</param>
    public sealed record WeatherUnusable(ListOf<Problem> Reasons)
        : Refusal("weather-unusable", "The site's weather cannot be used.", Reasons)
    {
        /// <summary>Whether a weather service did not answer as it should; no file is to blame then.</summary>
        public bool IsOfService { get; init; }
    }

    /// <summary>Visits are planned for whole years, and the record holds none.</summary>
    public sealed record WeatherTooShort()
        : Refusal("weather-too-short", WholeYears, [new Problem("season", 0, 0, "", "", null, WholeYears.Text.TrimEnd('.'))]);

    /// <summary>The limits on visits cannot be met.</summary>
    /// <param name="Why">Which of them, and why.</param>
    public sealed record NoSeason(Sentence Why)
        : Refusal("no-season", Why, [new Problem("season", 0, 0, "", "", null, Why.Text.TrimEnd('.'))]);

    /// <summary>Something that was asked for cannot be right.</summary>
    /// <param name="Reasons">What, one by one.</param>
    public sealed record WrongRequest(ListOf<Problem> Reasons) : Refusal("wrong-input", Reasons[0].Message, Reasons);

    private static Sentence WholeYears =>
        "Visits are chosen on whole years of weather, and the record holds none. Without visits a plan can be made.";
}

/// <summary>The work was refused: nothing was made, and the person must change something first.</summary>
/// <param name="refusal">What.</param>
public sealed class RefusalException(Refusal refusal) : Exception(refusal?.What.Text)
{
    /// <summary>What to change.</summary>
    public Refusal Refusal { get; } = refusal!;
}
