using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;

namespace Valvewright.Files.Cards;

/// <summary>All that a card says, as a plain value without language, units or page: the settings in the order they are set, and what
/// to check them against.</summary>
public sealed record CardContent
{
    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

    /// <summary>The controller's name.</summary>
    public required string Controller { get; init; }

    /// <summary>What the controller can hold.</summary>
    public required Profile Profile { get; init; }

    /// <summary>Units to show water in.</summary>
    public required UnitSystem Units { get; init; }

    /// <summary>How to show times of day.</summary>
    public required ClockStyle ClockStyle { get; init; }

    /// <summary>The date on which the card is meant to be set.</summary>
    public required LocalDate From { get; init; }

    /// <summary>How to set the clock.</summary>
    public required ClockStep Clock { get; init; }

    /// <summary>The programs in use, by letter.</summary>
    public required ListOf<ProgramStep> Programs { get; init; }

    /// <summary>Letters of the programs that the controller has and the plan leaves empty.</summary>
    public required ListOf<char> UnusedPrograms { get; init; }

    /// <summary>Every station that has a zone or a run time, rising.</summary>
    public required ListOf<StationName> Stations { get; init; }

    /// <summary>Stations of the controller with neither.</summary>
    public required ListOf<int> EmptyStations { get; init; }

    /// <summary>The percent to set on <see cref="From"/>; 0 means off.</summary>
    public required int PercentNow { get; init; }

    /// <summary>The visits of the year; none: the percent stays.</summary>
    public required ListOf<Visit> Visits { get; init; }

    /// <summary>What to set at visits beside the percent; none where visits change nothing else.</summary>
    public ListOf<VisitChange> Changes { get; init; } = [];

    /// <summary>The next dates with water.</summary>
    public required ListOf<ExpectedDay> NextDays { get; init; }

    /// <summary>What to warn of.</summary>
    public required ListOf<Caution> Cautions { get; init; }

    /// <summary>What the plan's proof comes to; null where it is not at hand.</summary>
    public PlanVerdict? Verdict { get; init; }

    /// <summary>The link that the card's QR code leads to: the work at the controller. Null where no server is known that a telephone could
    /// reach; the code then holds <see cref="SettingsText"/>.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Work { get; init; }

    /// <summary>The check text of all programs.</summary>
    public required string Check { get; init; }

    /// <summary>The settings as one line of text, with the percent of <see cref="PercentNow"/> (where it is off: of the
    /// settings).</summary>
    public required string SettingsText { get; init; }

    /// <summary>The QR code.</summary>
    public QrPicture Code() =>
        QrPicture.Of(Work is { } link ? WorkLink.Equivalents(link) : Engine.Keying.SettingsText.Equivalents(SettingsText));

    /// <summary>How many days <see cref="NextDays"/> looks ahead: over a winter off, and over the longest interval after it.</summary>
    public const int DaysAhead = 400;

    /// <summary>The card of one controller.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">The plan for the site.</param>
    /// <param name="controller">The controller's name.</param>
    /// <param name="from">The date on which it is set.</param>
    /// <param name="cautions">What to warn of; null: everything the work can meet.</param>
    /// <param name="expectedDays">How many dates with water to list.</param>
    /// <exception cref="KeyNotFoundException">Site or plan have no such controller.</exception>
    public static CardContent Of(
        Site site, Plan plan, string controller, LocalDate from, ListOf<Caution>? cautions = null, int expectedDays = 8)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        SiteController device = site.ControllerNamed(controller);
        ControllerPlan planned = plan.For(controller);
        int percent = Spell.Of(planned, from, from).Single().Percent;
        Settings settings = planned.SettingsOn(from);
        StationName[] stations = NamesOf(device, settings);
        return new CardContent
        {
            Site = site.Name,
            Controller = device.Name,
            Profile = device.Profile,
            Units = site.Units,
            ClockStyle = site.Clock,
            From = from,
            Clock = ClockStep.Of(site.Zone(), device.Profile, from),
            Programs = settings.Programs.Where(p => !IsEmpty(p)).Select(p => ProgramStep.Of(device, p, from)).ToListOf(),
            UnusedPrograms = Unused(device.Profile, settings),
            Stations = [.. stations],
            EmptyStations = Enumerable.Range(1, device.Profile.Stations).Except(stations.Select(s => s.Station)).ToListOf(),
            PercentNow = percent,
            Visits = planned.Visits,
            Changes = VisitChange.Of(planned),
            NextDays = ExpectedDay.Next(device.Profile, planned, from, DaysAhead, expectedDays),
            Cautions = cautions ?? CautionsOf(site, device, planned),
            Check = CheckText.Of(settings),
            SettingsText = Engine.Keying.SettingsText.Write(settings, device.Name),
        };
    }

    /// <summary>Those that apply here: reclaimed water first, blowing out where the controller is turned off over the winter.</summary>
    private static ListOf<Caution> CautionsOf(Site site, SiteController device, ControllerPlan planned) =>
    [
        .. site.Supplies.Any(s => s.Name == device.Supply && s.IsReclaimed) ? [Caution.Reclaimed] : Array.Empty<Caution>(),
        Caution.Digging, Caution.Backflow, Caution.Traffic, Caution.Batteries,
        .. planned.Visits.Any(v => v.Percent == 0) ? [Caution.BlowOut] : Array.Empty<Caution>(),
    ];

    private static StationName[] NamesOf(SiteController device, Settings settings)
    {
        HashSet<int> run = [.. settings.Programs.SelectMany(p => p.RunTimes).Select(r => r.Station)];
        return
        [
            .. run.Concat(device.Zones.Select(z => z.Station)).Distinct().Order()
                .Select(s => new StationName(s, device.Zones.FirstOrDefault(z => z.Station == s)?.Name)),
        ];
    }

    private static ListOf<char> Unused(Profile profile, Settings settings)
    {
        HashSet<char> used = [.. settings.Programs.Where(p => !IsEmpty(p)).Select(p => p.Letter)];
        return Enumerable.Range(0, profile.Programs).Select(Profile.LetterOf).Where(l => !used.Contains(l)).ToListOf();
    }

    private static bool IsEmpty(Program program) => program.StartTimes.Count == 0 && program.RunTimes.All(r => r.Seconds == 0);
}

/// <summary>What a visit sets besides the percent.</summary>
/// <param name="Date">The visit's date.</param>
/// <param name="Programs">Program by program.</param>
/// <param name="Check">The check text of all programs after it.</param>
public sealed record VisitChange(AnnualDate Date, ListOf<ProgramChange> Programs, string Check)
{
    /// <summary>Those of a plan, in the order of its visits; visits that change only the percent are left out.</summary>
    public static ListOf<VisitChange> Of(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return ProgramChange.ByVisit(plan)
            .Select((c, v) => new VisitChange(plan.Visits[v].Date, c, CheckText.Of(new Settings(plan.ProgramsAfter(v)))))
            .Where(c => c.Programs.Count > 0)
            .ToListOf();
    }
}

/// <summary>A station and what people call its zone.</summary>
/// <param name="Station">Station number, from 1.</param>
/// <param name="Zone">The zone's name; null where no zone is wired to it.</param>
public sealed record StationName(int Station, string? Zone);

/// <summary>What the work can hurt.</summary>
public enum Caution
{
    /// <summary>Buried lines.</summary>
    Digging,

    /// <summary>Backflow devices.</summary>
    Backflow,

    /// <summary>Reclaimed water.</summary>
    Reclaimed,

    /// <summary>Work near traffic.</summary>
    Traffic,

    /// <summary>Batteries.</summary>
    Batteries,

    /// <summary>Compressed air that blows pipes out before winter.</summary>
    BlowOut,
}
