using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Changes;

/// <summary>
/// The best programs within 1, 2, 3, ... changed settings of those that a site has: from every good way to change so many settings,
/// every way to change one more, priced on the years known and held to the proof's rules.
/// </summary>
/// <remarks>Controllers with a seedbed stay as they are: their waterings are not those of a year.</remarks>
public sealed class ChangeSearch
{
    /// <summary>Ways of so many changes from which the next is tried: those that keep the rules, and those that are cheapest whether they
    /// do or not.</summary>
    private const int KeptWithRules = 6, KeptWithout = 4;

    /// <summary>Ways that are held to the rules of the first weeks.</summary>
    private const int Inspected = 36;

    private const int MostRefinements = 3;
    private const double LeastGain = 1e-4;

    private readonly Site site;
    private readonly Plan found;
    private readonly Plan? goal;
    private readonly ChangeCosts costs;
    private readonly ChangeRules rules;
    private readonly ChangeMoves?[] moves;
    private readonly ChangeState start;
    private readonly int[] useless;
    private readonly CancellationToken cancel;

    private ChangeSearch(Site site, Plan found, Plan? replanned, ListOf<Climate> training, LocalDate from, CancellationToken cancel)
    {
        (this.site, this.cancel) = (site, cancel);
        this.found = found with { Controllers = site.Controllers.Select(c => found.For(c.Name)).ToListOf() };
        goal = replanned is null ? null : GoalLetters.Of(site, this.found, replanned);
        costs = new ChangeCosts(site, this.found, new YearsOfZones(training));
        rules = new ChangeRules(site, this.found, from);
        moves = [.. site.Controllers.Select((c, i) => SeedbedVisits.HasSeedbed(c) || c.Zones.Count == 0 ? null
            : new ChangeMoves(site, c, this.found.Controllers[i], goal?.For(c.Name).Settings ?? new Settings([]), from))];
        Settings[] held = [.. this.found.Controllers.Select(c => c.Settings)];
        start = new ChangeState(held, [.. held.Select((s, i) => costs.Of(i, s))], new int[held.Length]);
        useless = [.. held.Select((s, i) => costs.Useless(i, s))];
    }

    /// <summary>Searches.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="found">What every controller of the survey holds.</param>
    /// <param name="replanned">A plan made from nothing for the same visits; null where there is none.</param>
    /// <param name="training">Years of climate to price with, whole.</param>
    /// <param name="from">First date of the calendar on which rules are checked.</param>
    /// <param name="most">The most changes that are wanted.</param>
    /// <param name="tell">Told how many changes are being tried.</param>
    /// <param name="cancel">Stops the search.</param>
    public static ProgramChanges Of(
        Site site, Plan found, Plan? replanned, ListOf<Climate> training, LocalDate from, int most, Action<int>? tell = null,
            CancellationToken cancel = default) =>
        new ChangeSearch(site, found, replanned, training, from, cancel).Run(most, tell);

    private ProgramChanges Run(int most, Action<int>? tell)
    {
        ChangeState? replanned = goal is null ? null : StateOf([.. goal.Controllers.Select(c => c.Settings)]);
        int last = Math.Min(most, Math.Max(replanned?.Distance ?? 0, 1));
        bool startKeeps = rules.AreKept(start);
        ChangeState? best = startKeeps ? start : null;
        List<ChangeState> from = [start];
        List<ChangedPrograms> steps = [];
        for (int changes = 1; changes <= last; changes++)
        {
            cancel.ThrowIfCancellationRequested();
            tell?.Invoke(changes);
            from = Next(from, changes);
            ChangeState? step = from.Where(s => rules.Soon(s) == 0).OrderBy(s => s.Cost).FirstOrDefault(rules.AreKept);
            if (replanned is { } all && all.Distance <= changes && (step is null || all.Cost < step.Cost) && rules.AreKept(all))
            {
                step = all;
                from = [.. from.Append(all)];
            }

            if (step is not null && (best is null || step.Cost < best.Cost * (1 - LeastGain)))
            {
                best = step;
                steps.Add(Described(step, keeps: true));
            }
        }

        return new ProgramChanges(Described(start, startKeeps), steps.ToListOf(), replanned is null ? null
            : Described(replanned, rules.AreKept(replanned)));
    }

    /// <summary>The ways of so many changes from which to go on.</summary>
    private List<ChangeState> Next(List<ChangeState> from, int changes)
    {
        List<ChangeState> kept = Chosen(from.SelectMany(s => Around(s)).Concat(from).Where(s => s.Distance <= changes));
        for (int round = 0; round < MostRefinements; round++)
        {
            double before = kept.Where(s => rules.Soon(s) == 0).Select(s => s.Cost).DefaultIfEmpty(double.PositiveInfinity).Min();
            kept = Chosen(kept.Take(2).SelectMany(s => Around(s)).Concat(kept).Where(s => s.Distance <= changes));
            if (kept.Where(s => rules.Soon(s) == 0)
                .Select(s => s.Cost).DefaultIfEmpty(double.PositiveInfinity).Min() >= before * (1 - LeastGain))
            {
                break;
            }
        }

        return kept;
    }

    private List<ChangeState> Chosen(IEnumerable<ChangeState> pool)
    {
        ChangeState[] all = [.. pool.DistinctBy(s => s.Key).OrderBy(s => s.Cost).ThenBy(s => s.Distance)];
        List<ChangeState> kept = [.. all.Take(Inspected).Where(s => rules.Soon(s) == 0).Take(KeptWithRules)];

        // Where the cheapest break rules, those near the rules count before those far from them.
        if (kept.Count == 0)
        {
            kept.AddRange(all.Take(4 * Inspected).OrderBy(rules.Soon).ThenBy(s => s.Cost).Take(KeptWithRules));
        }

        kept.AddRange(all.Where(s => !kept.Contains(s)).Take(KeptWithout));
        return kept;
    }

    /// <summary>Every way to change one setting of some settings.</summary>
    private IEnumerable<ChangeState> Around(ChangeState state)
    {
        bool broken = rules.Soon(state) > 0;
        for (int c = 0; c < moves.Length; c++)
        {
            if (moves[c] is not { } of)
            {
                continue;
            }

            cancel.ThrowIfCancellationRequested();
            AsFound held = new(state.Settings[c]);
            foreach ((int station, KeyChange[] runs) in of.RunTimes(held.Settings))
            {
                costs.Prepare(c, station, runs.Select(r => r.ApplyTo(held).Settings));
                foreach (KeyChange run in runs)
                {
                    yield return After(state, c, held, run);
                }
            }

            KeyChange[] percents = [.. of.Percents(held.Settings)];
            foreach (int station in site.Controllers[c].Zones.Select(z => z.Station))
            {
                costs.Prepare(c, station, percents.Select(p => p.ApplyTo(held).Settings));
            }

            IEnumerable<KeyChange> rest = percents.Concat(of.Days(held.Settings)).Concat(of.StartCounts(held.Settings));
            foreach (KeyChange change in broken ? rest.Concat(of.StartTimes(held.Settings)) : rest)
            {
                yield return After(state, c, held, change);
            }
        }
    }

    private ChangeState After(ChangeState state, int controller, AsFound held, KeyChange change)
    {
        Settings after = change.ApplyTo(held).Settings;
        return costs.Useless(controller, after) > Math.Max(useless[controller], costs.Useless(controller, held.Settings))
            ? state
            : state.With(controller, after, costs.Of(controller, after), SettingChanges.Count(start.Settings[controller], after));
    }

    private ChangeState StateOf(Settings[] settings) => new(
        settings, [.. settings.Select((s, i) => costs.Of(i, s))],
            [.. settings.Select((s, i) => SettingChanges.Count(start.Settings[i], s))]);

    private ChangedPrograms Described(ChangeState state, bool keeps) => new(
        site.Controllers.SelectMany((c, i) => SettingChanges.Between(start.Settings[i], state.Settings[i])
            .Select(k => new ControllerChange(c.Name, k))).ToListOf(),
        rules.PlanOf(state), state.Totals.Sum(t => t.Water), state.Totals.Sum(t => t.Unmet), state.Cost, keeps);
}
