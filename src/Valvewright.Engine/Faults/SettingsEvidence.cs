using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>What the check of a reading and the emulator say to the steps of a trace, so that no one is asked for it.</summary>
public static class SettingsEvidence
{
    private const string Settings = "settings", Clock = "clock", Display = "display", Due = "due";
    private const int DaysBack = 7;

    /// <summary>Answers from a check.</summary>
    /// <param name="model">The model; its answers name the findings that mean them.</param>
    /// <param name="complaint">What the caller complains of: of several findings the one that brings it about most often counts.</param>
    /// <param name="station">The station; findings about other stations do not count.</param>
    /// <param name="reading">What was read.</param>
    /// <param name="check">What the check found.</param>
    public static ListOf<TraceAnswer> Of(FaultModel model, string complaint, int? station, Reading reading, CheckResult check)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(check);
        List<TraceAnswer> answers = [];
        string[] found =
        [
            .. check.Findings.Where(
                f => f.Certainty != Certainty.Possible && (station is null || f.Stations.Count == 0 || f.Stations.Contains(station.Value)))
                .Select(f => JsonNamingPolicy.CamelCase.ConvertName(f.Kind.ToString())),
        ];
        if (model.StepNamed(Settings) is { } settings)
        {
            StepAnswer? named = settings.Answers.Where(a => a.Findings.Any(found.Contains)).OrderByDescending(
                a => BringsAbout(model, a.Name, complaint)).FirstOrDefault();
            if (named is not null)
            {
                answers.Add(new TraceAnswer(Settings, named.Name, Source: AnswerSource.Check));
            }
            else if (check is { Next: null } && reading.Programs.Count > 0)
            {
                answers.Add(new TraceAnswer(Settings, settings.Answers[0].Name, Source: AnswerSource.Check));
            }
        }

        if (model.StepNamed(Clock) is { } clock && (reading.Clock is not null || clock.Answers.Any(a => a.Findings.Any(found.Contains))))
        {
            string said = (clock.Answers.FirstOrDefault(a => a.Findings.Any(found.Contains)) ?? clock.Answers[0]).Name;
            answers.Add(new TraceAnswer(Clock, said, Source: AnswerSource.Check));
        }

        if (model.StepNamed(Display) is { } display && reading.Programs.Count > 0)
        {
            answers.Add(new TraceAnswer(Display, display.Answers[0].Name, Source: AnswerSource.Check));
        }

        return answers.ToListOf();
    }

    /// <summary>Whether the station was due in the week before, by the plan as set; nothing where the plan is not known.</summary>
    public static ListOf<TraceAnswer> OfPlan(
        FaultModel model, Site site, SiteController controller, Plan? plan, int? station, LocalDateTime now)
    {
        ArgumentNullException.ThrowIfNull(model);
        if (model.StepNamed(Due) is not { } due || plan?.Controllers.FirstOrDefault(c => c.Controller == controller.Name)
            is not { } planned)
        {
            return [];
        }

        bool ran = Runs(site, controller, plan, planned, now.PlusDays(-DaysBack), now.Date)
            .Any(r => (station is null || r.Station == station) && r.Opens > now.PlusDays(-DaysBack) && r.Opens < now);
        return [new TraceAnswer(Due, due.Answers[ran ? 0 : ^1].Name, Source: AnswerSource.Emulator)];
    }

    /// <summary>The next time at which a station should open, by the plan as set, to verify a repair by; null where there is none
    /// within a month.</summary>
    public static DueRun? NextRun(Site site, SiteController controller, Plan? plan, int? station, LocalDateTime now)
    {
        ArgumentNullException.ThrowIfNull(controller);
        return plan?.Controllers.FirstOrDefault(c => c.Controller == controller.Name) is { } planned
            ? Runs(site, controller, plan, planned, now, now.Date.PlusDays(30)).FirstOrDefault(
                r => (station is null || r.Station == station) && r.Opens > now)
            : null;
    }

    private static List<DueRun> Runs(
        Site site, SiteController controller, Plan plan, ControllerPlan planned, LocalDateTime keyedIn, LocalDate to)
    {
        SiteWorld world = new(site, controller, plan, keyedIn);
        Doings doings = world.Run(controller, Expectation.Of(planned, keyedIn.Date), keyedIn.Date.AtMidnight(), keyedIn.Date, to);
        return [.. doings.Runs.OrderBy(r => r.Opens)
            .Select(r => new DueRun(r.Station, r.Program, world.SiteTime(r.Opens), (int)r.Seconds))];
    }

    private static double BringsAbout(FaultModel model, string answer, string complaint) => model.Causes
        .Where(c => c.Shows.Any(s => s.Step == Settings && s.Answers.Any(a => a.Name == answer && a.Share >= 0.5)))
        .Select(c => c.Complaints.FirstOrDefault(o => o.Name == complaint)?.Share ?? 0).DefaultIfEmpty(0).Max();
}

/// <summary>A run to look for.</summary>
/// <param name="Station">The station.</param>
/// <param name="Program">The program's letter.</param>
/// <param name="Opens">Site time.</param>
/// <param name="Seconds">How long it is open.</param>
public sealed record DueRun(int Station, char Program, LocalDateTime Opens, int Seconds);
