using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.App.Pages.Visits;

/// <summary>A field of a visit that can't be kept as it is typed.</summary>
public enum VisitField
{
    /// <summary>No controller is chosen.</summary>
    Controller,

    /// <summary>Date or time.</summary>
    At,

    /// <summary>Battery.</summary>
    Battery,

    /// <summary>A coil.</summary>
    Coil,

    /// <summary>Water meter.</summary>
    Meter,
}

/// <summary>A problem of a field.</summary>
/// <param name="Field">Which.</param>
/// <param name="Station">The station of a coil; 0 elsewhere.</param>
public sealed record VisitProblem(VisitField Field, int Station = 0);

/// <summary>What was understood of a draft.</summary>
public sealed record VisitEntry
{
    /// <summary>Stands for "the meter shows no resistance": the most that can be kept, ohm.</summary>
    public const double OpenOhms = 10_000_000;

    private const double MostVolts = 30;
    private const double MostM3 = 1e9;
    private static readonly string[] OpenWords = ["ol", "o.l", "o.l.", "open", "abierto", "abierta", "inf", "∞", "1."];

    /// <summary>What can be kept; null where there is a problem.</summary>
    public VisitValue? Value { get; private init; }

    /// <summary>What can't be kept as typed.</summary>
    public required ListOf<VisitProblem> Problems { get; init; }

    /// <summary>When it was; null where that can't be read.</summary>
    public LocalDateTime? At { get; private init; }

    /// <summary>What was found.</summary>
    public required ReadText Found { get; init; }

    /// <summary>What was left.</summary>
    public required ReadText Left { get; init; }

    /// <summary>What was left beside the card; null where there is no plan for the controller, or nothing was written.</summary>
    public LeftAsPlanned? AgainstCard { get; private init; }

    /// <summary>Volts; null where none or not readable.</summary>
    public double? BatteryVolts { get; private init; }

    /// <summary>Coils that could be read.</summary>
    public required ListOf<CoilReading> Coils { get; init; }

    /// <summary>Reads a draft.</summary>
    /// <param name="draft">The draft.</param>
    /// <param name="site">The survey.</param>
    /// <param name="plan">The plan, if there is one.</param>
    public static VisitEntry Of(VisitDraft draft, Site site, Plan? plan)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(site);
        List<VisitProblem> problems = [];
        SiteController? controller = site.Controllers.FirstOrDefault(c => c.Name == draft.Controller);
        if (draft.Controller.Length == 0)
        {
            problems.Add(new VisitProblem(VisitField.Controller));
        }

        LocalDateTime? at = Moment(draft.Date, draft.Time);
        if (at is null)
        {
            problems.Add(new VisitProblem(VisitField.At));
        }

        double? volts = Number(draft.Battery, "v", MostVolts, out bool isVolts);
        double? meter = Meter(draft.Meter, site.Units, out bool isMeter);
        ListOf<CoilReading> coils = CoilsOf(draft, problems);
        AddWhere(problems, !isVolts, VisitField.Battery);
        AddWhere(problems, !isMeter, VisitField.Meter);
        SiteNames names = SiteNames.Of(site, controller);
        ReadText found = ReadingText.Parse(draft.AsFound, controller?.Profile, site.Clock, names),
            left = ReadingText.Parse(draft.AsLeft, controller?.Profile, site.Clock, names);
        ControllerPlan? planned = plan?.Controllers.FirstOrDefault(c => c.Controller == draft.Controller);
        return new VisitEntry
        {
            Problems = problems.ToListOf(), At = at, Found = found, Left = left, BatteryVolts = volts, Coils = coils,
            AgainstCard = controller is null || planned is null || at is null || draft.AsLeft.Trim().Length == 0 ? null
                : LeftAsPlanned.Of(controller, planned, left.Certain(), at.Value),
            Value = problems.Count > 0 ? null : new VisitValue(
                draft.Controller, at!.Value, draft.AsFound.Trim(), draft.AsLeft.Trim(), volts, coils, meter, draft.Notes.Trim()),
        };
    }

    /// <summary>The card's settings as a display shows them, in quick form; empty where there is no plan for the controller.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="controller">The controller.</param>
    /// <param name="at">When it is left.</param>
    /// <param name="spanish">In Spanish, else in English.</param>
    public static string CardText(Site site, Plan? plan, string controller, LocalDateTime at, bool spanish)
    {
        ArgumentNullException.ThrowIfNull(site);
        SiteController? device = site.Controllers.FirstOrDefault(c => c.Name == controller);
        ControllerPlan? planned = plan?.Controllers.FirstOrDefault(c => c.Controller == controller);
        return device is null || planned is null ? ""
            : ReadingWriter.Write(LeftAsPlanned.Expected(device, planned, at), site.Clock, spanish).TrimEnd();
    }

    /// <summary>Date and time as fields give them.</summary>
    public static LocalDateTime? Moment(string date, string time) =>
        LocalDatePattern.Iso.Parse(date) is { Success: true, Value: { Year: >= 1950 and <= 2199 } day }
            && LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(Minutes(time)) is { Success: true } clock
            ? day + clock.Value
            : null;

    /// <summary>A number as people write it; a comma may part the decimals, and the unit may stand behind it.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="unit">The unit in lower case.</param>
    /// <param name="most">The largest that can be kept.</param>
    /// <param name="isRead">Whether it is empty or could be read.</param>
    public static double? Number(string text, string unit, double most, out bool isRead)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(unit);
        string plain = text.Trim().ToLowerInvariant();
        plain = unit.Length > 0 && plain.EndsWith(unit, StringComparison.Ordinal) ? plain[..^unit.Length].TrimEnd() : plain;
        if (plain.Length == 0)
        {
            isRead = text.Trim().Length == 0;
            return null;
        }

        plain = plain.Count(c => c == ',') == 1 && !plain.Contains('.', StringComparison.Ordinal) ? plain.Replace(',', '.') : plain;
        isRead = double.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number) && number >= 0
            && number <= most;
        return isRead ? number : null;
    }

    private static string Minutes(string time) => time.Length > 5 ? time[..5] : time;

    private static void AddWhere(List<VisitProblem> problems, bool isWrong, VisitField field)
    {
        if (isWrong)
        {
            problems.Add(new VisitProblem(field));
        }
    }

    private static ListOf<CoilReading> CoilsOf(VisitDraft draft, List<VisitProblem> problems)
    {
        List<CoilReading> coils = [];
        foreach (CoilText coil in draft.Coils)
        {
            string text = coil.Text.Trim().ToLowerInvariant();
            double? ohms = OpenWords.Contains(text) ? OpenOhms : Number(text.EndsWith("ohm", StringComparison.Ordinal) ? text[..^3] : text,
                "ω", OpenOhms, out bool isRead) is { } read ? read : isRead ? null : double.NaN;
            if (ohms is double.NaN)
            {
                problems.Add(new VisitProblem(VisitField.Coil, coil.Station));
            }
            else if (ohms is { } known)
            {
                coils.Add(new CoilReading(coil.Station, known));
            }
        }

        return coils.ToListOf();
    }

    private static double? Meter(string text, UnitSystem units, out bool isRead)
    {
        string plain = text.Trim().ToLowerInvariant();
        bool isCubic = plain.EndsWith("m3", StringComparison.Ordinal) || plain.EndsWith("m³", StringComparison.Ordinal);
        bool isGallons = plain.EndsWith("gal", StringComparison.Ordinal) || (units == UnitSystem.UsCustomary && !isCubic);
        double? number = Number(isCubic ? plain[..^2] : plain, isGallons ? "gal" : "", MostM3, out isRead);
        return isGallons ? number * UsUnits.LitresPerGallon / 1000 : number;
    }
}
