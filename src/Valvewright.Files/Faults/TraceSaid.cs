using System.Globalization;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Faults;

/// <summary>The words around a trace, in a person's language; the same on the page and the command line.</summary>
public sealed class TraceSaid
{
    private const double KpaPerPsi = 6.894757;
    private const double KpaPerBar = 100;
    private const double NoWayThrough = 1e9;
    private readonly Wording wording;
    private readonly FaultModel model;

    /// <summary>The words of a site's traces.</summary>
    public TraceSaid(FaultModel model, Site site, Language language)
    {
        ArgumentNullException.ThrowIfNull(site);
        this.model = model;
        wording = Wording.In(language);
        Spoken = language == Texts.Language.Spanish ? CheckLanguage.Spanish : CheckLanguage.English;
        Say = new SiteWords(site.Units, site.Clock, wording);
    }

    /// <summary>Amounts, dates and times.</summary>
    public SiteWords Say { get; }

    /// <summary>The language of the model's texts.</summary>
    public CheckLanguage Spoken { get; }

    /// <summary>A text by its name.</summary>
    public string this[string name] => wording[$"trace.{name}"];

    /// <summary>A text with its places filled.</summary>
    public string Fill(string name, params ReadOnlySpan<(string Place, object Value)> values) => wording.Fill($"trace.{name}", values);

    /// <summary>A cause; null for something else.</summary>
    public string Cause(string? name) => name is null ? this["else"] : model.CauseNamed(name)?.Text.In(Spoken) ?? name;

    /// <summary>A complaint.</summary>
    public string Complaint(string name) => model.ComplaintNamed(name)?.Text.In(Spoken) ?? name;

    /// <summary>A step, in short.</summary>
    public string Step(string name) => model.StepNamed(name)?.Title.In(Spoken) ?? name;

    /// <summary>What was answered, and who said so where it was no person.</summary>
    public string Answer(TraceAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        TraceStep? step = model.StepNamed(answer.Step);
        string said = answer.Value is { } value && step?.Measured is { } quantity ? Value(quantity, value)
            : answer.Answer is { } word ? step?.AnswerNamed(word)?.Text.In(Spoken) ?? word
            : this[answer.CannotDo ? "cannot" : "unknown"];
        return answer.Source == AnswerSource.Person ? said : $"{said} ({this[$"by.{answer.Source}"]})";
    }

    /// <summary>A share.</summary>
    public string Share(double share) => share < 0.01 ? this["share.small"] : wording.Percent(Math.Round(Math.Min(99, 100 * share)));

    /// <summary>A number of minutes.</summary>
    public static string Minutes(double minutes) => Math.Round(minutes, 1).ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>Several needs of the model.</summary>
    public string Needs(IEnumerable<string> needs) =>
        string.Join(", ", needs.Distinct().Select(n => model.Needs.First(m => m.Name == n).Text.In(Spoken)));

    /// <summary>Where a step is done.</summary>
    public string Place(TraceStep step) => model.Places.First(p => p.Name == step.Place).Text.In(Spoken);

    /// <summary>What a meter usually reads at a step, and how to type a number.</summary>
    public string Expected(TraceStep step, TraceFacts facts)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(facts);
        Expected quantity = step.Measured!.Value;
        return Fill(
            quantity is Engine.Faults.Expected.LoopOhms or Engine.Faults.Expected.CoilOhms ? "expected" : "expected.other",
            ("value", Number(quantity, facts.Of(quantity))), ("unit", Unit(quantity)));
    }

    /// <summary>A measured value with its unit.</summary>
    public string Value(Expected quantity, double value) => value >= NoWayThrough ? "OL" : $"{Number(quantity, value)} {Unit(quantity)}";

    /// <summary>Reads a measured value: a number, with a unit or in the site's; OL for no way through. Null where it is none.</summary>
    public double? ReadValue(Expected quantity, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string plain = text.Trim().ToLowerInvariant().Replace(',', '.');
        if (quantity is Engine.Faults.Expected.LoopOhms or Engine.Faults.Expected.CoilOhms && plain is "ol" or "open" or "inf")
        {
            return NoWayThrough;
        }

        string number = new([.. plain.TakeWhile(c => char.IsAsciiDigit(c) || c == '.')]);
        string unit = plain[number.Length..].Trim();
        if (!double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value))
        {
            return null;
        }

        bool pressure = IsPressure(quantity);
        return unit switch
        {
            "" => pressure && Say.IsUs ? value * KpaPerPsi : value,
            "psi" when pressure => value * KpaPerPsi,
            "bar" when pressure => value * KpaPerBar,
            "kpa" when pressure => value,
            "v" or "volt" or "volts" or "voltios" when quantity == Engine.Faults.Expected.BatteryVolts => value,
            "ohm" or "ohms" or "ohmios" when !pressure && quantity != Engine.Faults.Expected.BatteryVolts => value,
            "k" or "kohm" or "kohms" when !pressure && quantity != Engine.Faults.Expected.BatteryVolts => value * 1e3,
            "m" or "mohm" or "mohms" when !pressure && quantity != Engine.Faults.Expected.BatteryVolts => value * 1e6,
            _ => null,
        };
    }

    /// <summary>What to look for after a repair.</summary>
    /// <param name="run">The next run by the plan; null without a plan.</param>
    /// <param name="now">Site time.</param>
    public string Verify(DueRun? run, LocalDateTime now)
    {
        if (run is null)
        {
            return this["end.noplan"];
        }

        const int EveningHour = 18;
        string name = run.Opens.Date != now.Date ? "end.date" : run.Opens.Hour >= EveningHour ? "end.tonight" : "end.today";
        return Fill(
            name, ("date", Say.Date(run.Opens.Date)), ("time", Say.Time(run.Opens.TimeOfDay)), ("station", run.Station),
                ("duration", SiteWords.Duration(run.Seconds)));
    }

    /// <summary>The unit in which a quantity is shown.</summary>
    public string Unit(Expected quantity) => IsPressure(quantity)
        ? Say.IsUs ? "psi" : "kPa"
        : this[quantity == Engine.Faults.Expected.BatteryVolts ? "unit.volts" : "unit.ohms"];

    private string Number(Expected quantity, double value) =>
        SiteWords.Number(IsPressure(quantity) && Say.IsUs ? value / KpaPerPsi : value, IsPressure(quantity) ? 0 : 1);

    private static bool IsPressure(Expected quantity) =>
        quantity is Engine.Faults.Expected.StaticPressure or Engine.Faults.Expected.RunningPressure;
}
