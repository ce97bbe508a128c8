using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Programs;

/// <summary>
/// The programs of a controller for the weeks in which it waters a seedbed: the seedbed alone in one, the year's other programs with
/// it.
/// </summary>
/// <remarks>
/// Other zones keep their days and start times, so all that was true of them stays true. Their run times take the season's percent,
/// because the seedbed needs 100 %. Where letters are too few, the program whose zones bear longest without water waits. The seedbed's
/// start times part a day's use evenly, as near as the rules, the supply and the other programs let them.
/// </remarks>
public static class SeedbedPrograms
{
    private const int Full = 100;
    private const int CalendarYears = 4;

    /// <summary>
    /// The shortest time that zones of a program bear without water for the program to wait until the seedbed has passed, days.
    /// </summary>
    private const int BearsTheWaitDays = 10;

    /// <summary>The plan with programs for its seedbeds; null where a controller has no room for them.</summary>
    /// <param name="site">The survey, seedbeds and all.</param>
    /// <param name="plan">Programs and visits of the site as it is for most of the year (<see cref="SeedbedVisits.AsLawns"/>).</param>
    /// <param name="training">Years of climate to plan with.</param>
    /// <param name="from">First date on which the plan is in force.</param>
    public static Plan? With(Site site, Plan plan, ListOf<Climate> training, LocalDate from)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ZoneMemory memory = new(training, new YearsOfZones(training));
        Dictionary<string, ListOf<Program>> during = [];
        foreach (SiteController controller in site.Controllers.Where(SeedbedVisits.HasProgramsOfItsOwn))
        {
            if (plan.For(controller.Name).Visits.Count == 0
                || new Search(site, controller, plan, memory, from, during).Find() is not { } programs)
            {
                return null;
            }

            during.Add(controller.Name, programs);
        }

        return SeedbedVisits.Keep(site, plan, during.GetValueOrDefault);
    }

    private sealed class Search(
        Site site, SiteController controller, Plan plan, ZoneMemory memory, LocalDate from, Dictionary<string, ListOf<Program>> before)
    {
        private readonly ControllerCase of = new(site, controller, new PlannerOptions { InForceFrom = from }, from, memory);
        private readonly PeriodOfYear dates = SeedbedVisits.DatesOf(controller)[0];

        public ListOf<Program>? Find()
        {
            if (Others() is not { } others || !IsKept([.. others]))
            {
                return null;
            }

            char letter = Enumerable.Range(0, controller.Profile.Programs).Select(Profile.LetterOf)
                .First(l => others.All(o => o.Letter != l));
            ZoneCase[] seedbeds = [.. of.Zones.Where(z => z.IsSeedbed)];
            int fewest = seedbeds.Max(z => z.FewestWateringsPerDay);
            for (int waterings = fewest; waterings <= controller.Profile.StartTimesPerProgram; waterings++)
            {
                Choice?[] chosen = [.. seedbeds.Select(z => z.Choices.FirstOrDefault(c => c.Cycles == waterings))];
                if (!chosen.All(c => c is not null))
                {
                    continue;
                }

                RunTime[] runs = [.. seedbeds.Select((z, i) => new RunTime(z.Zone.Station, chosen[i]!.RunSeconds)).OrderBy(r => r.Station)];
                if (WithStarts(others, new Program(letter, [], [.. runs], chosen[0]!.Days.Phases[0].Rule), waterings) is { } found)
                {
                    return found;
                }
            }

            return null;
        }

        /// <summary>The year's programs without the seedbed's stations, one letter left free; null where none can wait.</summary>
        private List<Program>? Others()
        {
            ControllerPlan own = plan.For(controller.Name);
            LocalDate sown = dates.From.InYear(from.Year);
            int percent = (own.Visits.LastOrDefault(v => v.Date <= dates.From) ?? own.Visits[^1]).Percent;
            HashSet<int> seedbeds = [.. of.Zones.Where(z => z.IsSeedbed).Select(z => z.Zone.Station)];
            int step = controller.Profile.RunTimeStepSeconds;
            List<Program> others = [.. own.ProgramsOn(sown)
                .Select(p => p with
                {
                    RunTimes = p.RunTimes.Where(r => !seedbeds.Contains(r.Station))
                        .Select(r => r with { Seconds = Math.Min(RoundTimes.Up(r.Seconds * percent / (double)Full, step), r.Seconds) })
                        .ToListOf(),
                })
                .Where(p => percent > 0 && p.RunTimes.Count > 0)];
            while (others.Count >= controller.Profile.Programs)
            {
                Program waits = others.MaxBy(Bears)!;
                if (Bears(waits) < BearsTheWaitDays)
                {
                    return null;
                }

                others.Remove(waits);
            }

            return others;
        }

        /// <summary>Days that a program's zones bear without water at the hardest time of the year.</summary>
        private double Bears(Program program) =>
            program.RunTimes.Min(r => of.Zones.First(z => z.Zone.Station == r.Station).Need.LongestGapDays.EightInTen);

        /// <summary>
        /// The seedbed's start times, one after the other, each as near to where it is wanted as the rules let it; null where
        /// they leave none.
        /// </summary>
        private ListOf<Program>? WithStarts(List<Program> others, Program seedbed, int waterings)
        {
            int step = RoundTimes.StartSteps(controller.Profile.StartStepMinutes)[0];
            LocalTime[] all = [.. Enumerable.Range(0, (24 * 60) / step).Select(i => LocalTime.Midnight.PlusMinutes(i * step))];
            List<LocalTime> starts = [];
            foreach (double wanted in WantedHours(waterings))
            {
                ListOf<Program> Keyed(LocalTime start) =>
                    [.. others.Append(seedbed with { StartTimes = starts.Append(start).Order().ToListOf() }).OrderBy(p => p.Letter)];
                double FromWanted(LocalTime time) => Math.Abs((time.TickOfDay / (double)NodaConstants.TicksPerHour) - wanted);
                LocalTime? found = all.Where(t => !starts.Contains(t)).OrderBy(FromWanted).Select(t => (LocalTime?)t)
                    .FirstOrDefault(t => IsKept(Keyed(t!.Value)));
                if (found is null)
                {
                    return null;
                }

                starts.Add(found.Value);
            }

            return [.. others.Append(seedbed with { StartTimes = starts.Order().ToListOf() }).OrderBy(p => p.Letter)];
        }

        /// <summary>Hours of the clock that part a day's use evenly: the first at sunrise.</summary>
        private IEnumerable<double> WantedHours(int waterings)
        {
            double[] shares = new double[DaylightSpread.Hours];
            DaylightSpread.Fill(site.Place, dates.From.InYear(from.Year), Seedbed.ClockHoursOf(site), shares);
            Profile unaware = controller.Profile with { ClockKnowsDaylightSaving = false };
            double ahead = controller.Profile.ClockKnowsDaylightSaving ? PermittedSpan.ClockBehind(site, unaware, from).Max() / 3600.0 : 0;
            double used = 0;
            int given = 0;
            for (int hour = 0; hour < shares.Length && given < waterings; hour++)
            {
                while (given < waterings && shares[hour] > 0 && used + shares[hour] > given / (double)waterings)
                {
                    yield return hour + Math.Max(0, ((given / (double)waterings) - used) / shares[hour]) + ahead;
                    given++;
                }

                used += shares[hour];
            }
        }

        /// <summary>Whether no rule is broken from sowing to the lawn's first day, in any of the years that follow.</summary>
        private bool IsKept(ListOf<Program> programs)
        {
            Plan tried = SeedbedVisits.Keep(site, plan, name => name == controller.Name ? programs : before.GetValueOrDefault(name));
            return Enumerable.Range(0, CalendarYears).All(y =>
            {
                LocalDate sown = dates.From.InYear(from.Year + y);
                return Proofs.Breaches(site, tried, sown, sown.PlusDays(Seedbed.Days)).Count == 0;
            });
        }
    }
}
