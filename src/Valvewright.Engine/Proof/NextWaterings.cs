using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>The waterings to look for in the field.</summary>
public static class NextWaterings
{
    /// <summary>As far ahead as it looks, in days: a plan may be off for the winter.</summary>
    private const int FarthestDays = 400;

    private const int DaysAtATime = 50;

    /// <summary>The next runs of a program, from the beginning of a date on, by rising time.</summary>
    public static ListOf<Watering> Of(Site site, ControllerPlan plan, LocalDate from, int count)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        SiteController controller = site.ControllerNamed(plan.Controller);
        DateTimeZone zone = site.Zone();
        List<Watering> found = [];
        for (int ahead = 0; ahead < FarthestDays && found.Count < count; ahead += DaysAtATime)
        {
            LocalDate first = from.PlusDays(ahead);
            IReadOnlyList<Opening> openings = Watered.Of(zone, controller, plan, first, first.PlusDays(DaysAtATime - 1)).Openings;
            found.AddRange(openings
                .GroupBy(o => (o.Run.Program, o.Run.Start, Due: DueOf(plan, o.Run)))
                .Select(g => ToWatering(zone, [.. g.OrderBy(o => o.OpensUnix)]))
                .OrderBy(w => w.Opens).ThenBy(w => w.Program));
        }

        return found.Take(count).ToListOf();
    }

    /// <summary>
    /// The date on which the start fell due to which a run belongs; runs of one start lie within a day of it. A plan that a person
    /// wrote may hold two programs of one letter: then the first that has that start is taken.
    /// </summary>
    private static LocalDate DueOf(ControllerPlan plan, StationRun run)
    {
        // A run that waits past midnight may open on the day of a visit that brings other programs: then those of the day before hold.
        LocalDate opens = ClockSeconds.DateOf(run.Opens);
        return DueOf(plan.SettingsOn(opens), run) is { } due && (due == opens || !plan.ChangesPrograms) ? due
            : DueOf(plan.SettingsOn(opens.PlusDays(-1)), run) ?? opens;
    }

    private static LocalDate? DueOf(Settings settings, StationRun run)
    {
        LocalTime[]? starts = settings.Programs
            .Where(p => p.Letter == run.Program)
            .Select(p => p.StartTimes.Distinct().Order().ToArray())
            .FirstOrDefault(s => s.Length > run.Start);
        return starts is null ? null
            : ClockSeconds.DateOf(run.Opens - (starts[run.Start].NanosecondOfDay / NodaConstants.NanosecondsPerSecond));
    }

    private static Watering ToWatering(DateTimeZone zone, Opening[] run) => new(
        run[0].Controller.Name,
        run[0].Run.Program,
        run[0].SiteTime(zone),
        Instant.FromUnixTimeSeconds(run.Max(o => o.ClosesUnix)).InZone(zone).LocalDateTime,
        run[0].Run.OpensAt,
        run[0].Percent,
        run.Select(o => new WateredStation(o.Run.Station, o.Zone?.Name, (int)o.Run.Seconds)).ToListOf());
}

/// <summary>One run of a program.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Program">The program's letter.</param>
/// <param name="Opens">When the first station opens, in local time.</param>
/// <param name="Closes">When the last station closes, in local time.</param>
/// <param name="OpensByClock">The first opening as the controller's clock shows it.</param>
/// <param name="Percent">Percent adjust then.</param>
/// <param name="Stations">The stations in the order in which they run.</param>
public sealed record Watering(string Controller, char Program, LocalDateTime Opens, LocalDateTime Closes, LocalDateTime OpensByClock,
    int Percent, ListOf<WateredStation> Stations);

/// <summary>A station's part in a run of a program.</summary>
/// <param name="Station">The station.</param>
/// <param name="Zone">The zone's name; null where none is wired.</param>
/// <param name="Seconds">How long it is open.</param>
public sealed record WateredStation(int Station, string? Zone, int Seconds);
