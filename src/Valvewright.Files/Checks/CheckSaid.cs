using System.Globalization;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Checks;

/// <summary>The words around a check, in a person's language and the units and clock style of the site; the same on the page and the
/// command line.</summary>
public sealed class CheckSaid
{
    private readonly Wording wording;

    /// <summary>The words of a site's checks in a language.</summary>
    public CheckSaid(Site site, Language language)
    {
        ArgumentNullException.ThrowIfNull(site);
        wording = Wording.In(language);
        Say = new SiteWords(site.Units, site.Clock, wording);
    }

    /// <summary>Amounts, dates and times.</summary>
    public SiteWords Say { get; }

    /// <summary>The language of the engine's own sentences.</summary>
    public CheckLanguage Language => wording.Language == Texts.Language.Spanish ? CheckLanguage.Spanish : CheckLanguage.English;

    /// <summary>A text by its name.</summary>
    public string this[string name] => wording[$"check.{name}"];

    /// <summary>A text with its places filled.</summary>
    public string Fill(string name, params ReadOnlySpan<(string Place, object Value)> values) => wording.Fill($"check.{name}", values);

    /// <summary>So many findings or explanations; none has words of its own.</summary>
    public string Count(string name, int n) => n == 0 ? wording[$"check.{name}.none"] : wording.Count($"check.{name}", n);

    /// <summary>A doubt in the language.</summary>
    public Doubt In(Doubt doubt)
    {
        ArgumentNullException.ThrowIfNull(doubt);
        return doubt with { Taken = In(doubt.Taken), Otherwise = In(doubt.Otherwise), Why = In(doubt.Why) };
    }

    /// <summary>A sentence of the engine in the language.</summary>
    public string In(Sentence sentence) => Sentences.Say(sentence, wording.Language);

    /// <summary>A week of water.</summary>
    public string Week(WeekOfWater week) => Fill(
        "weekOf", ("runs", week.Waterings.ToString("0.#", CultureInfo.InvariantCulture)),
            ("minutes", week.Minutes.ToString("0", CultureInfo.InvariantCulture)),
        ("water", $"{wording.Whole(Say.IsUs ? week.Litres / UsUnits.LitresPerGallon : week.Litres)} {(Say.IsUs ? "gal" : "L")}"));

    /// <summary>What a finding does in a week, and what is done once it is fixed.</summary>
    public string Effect(Effect effect)
    {
        ArgumentNullException.ThrowIfNull(effect);
        return Fill("week", ("asItIs", Week(effect.AsItIs)), ("mended", Week(effect.Mended)));
    }

    /// <summary>A time at which a finding shows.</summary>
    public string Showing(Showing shows) => Fill(
        shows.Runs ? "watch.runs" : "watch.idle",
            ("when", $"{Say.Date(shows.At.Date)} {Say.Time(new LocalTime(shows.At.Hour, shows.At.Minute))}"), ("station", shows.Station));

    /// <summary>A share of all explanations.</summary>
    public string Share(double share) => share < 0.01 ? this["share.small"] : wording.Percent(Math.Round(100 * share));

    /// <summary>How an explanation without a slip is called.</summary>
    public string WithoutSlip(CheckResult check)
    {
        ArgumentNullException.ThrowIfNull(check);
        return this[check.Findings.Count > 0 ? "explains.read" : check.AgainstPlan ? "explains.plan" : "explains.set"];
    }

    /// <summary>What was seen, said back.</summary>
    public string Seen(Observation seen) => seen switch
    {
        RanAt { DaysAgo: { } ago } s =>
            Seen($"{(s.Ran ? "ranAt" : "notAt")}.{(ago == 0 ? "today" : "yesterday")}", s.Station, ("time", Say.Time(s.Time))),
        RanAt { Weekday: { } day } s => Seen(s.Ran ? "ranAt.on" : "notAt.on", s.Station, ("time", Say.Time(s.Time)), ("day", Day(day))),
        RanAt s => Seen(s.Ran ? "ranAt" : "notAt", s.Station, ("time", Say.Time(s.Time))),
        TimesADay s => Seen($"times.{(s.Night ? "night" : "day")}.{(s.Times == 1 ? "one" : "other")}", s.Station, ("n", s.Times)),
        NothingFor { Days: null } s => Seen("never", s.Station),
        NothingFor { Days: { } days } s => Seen(days == 1 ? "notFor.one" : "notFor.other", s.Station, ("n", days)),
        RanOnDates s => Seen("dates", s.Station, ("dates", string.Join(", ", s.Dates))),
        RanOn s => Seen(s.Ran ? "on" : "notOn", s.Station, ("day", Day(s.Weekday))),
        RanDaily s => Seen("daily", s.Station),
        RunsFor s => Seen("runsFor", s.Station, ("minutes", s.Minutes)),
        OnlyStations s => wording.Fill("seen.onlyStations", ("stations", string.Join(", ", s.Stations))),
        RanOnlyOn s => Seen("onlyOn", s.Station, ("days", string.Join(", ", s.Weekdays.Select(Day)))),
        _ => throw new NotSupportedException($"An observation of the kind {seen?.GetType().Name}."),
    };

    /// <summary>What no setting explains, and where to go with it.</summary>
    public string Complaint(SeenComplaint complaint)
    {
        ArgumentNullException.ThrowIfNull(complaint);
        return Seen($"complaint.{complaint.Kind}", complaint.Station);
    }

    private string Seen(string name, int station, params ReadOnlySpan<(string Place, object Value)> values) =>
        wording.Fill($"seen.{name}",
            [("what", station == 0 ? wording["seen.it"] : wording.Fill("seen.station", ("n", station))), .. values]);

    private string Day(IsoDayOfWeek day) => wording[$"day.{(int)day}"];
}
