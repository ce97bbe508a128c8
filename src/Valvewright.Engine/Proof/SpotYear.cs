using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof;

/// <summary>One column of a zone under a plan, day by day through a year of weather: the same replay as the proof's, to be looked
/// at.</summary>
/// <param name="Weather">The days: the year, or for a seedbed of known sowing date those in which it is one.</param>
/// <param name="Root">What the root zone holds.</param>
/// <param name="DepletionMm">Depletion below field capacity at the day's end, mm.</param>
/// <param name="ReadilyMm">Depletion at which plants begin to use less, that day, mm.</param>
/// <param name="WantedMm">What the plants would use if they lacked nothing, mm.</param>
/// <param name="RainInMm">Rain that sinks in, mm.</param>
/// <param name="AppliedMm">Water applied, gross, mean over the zone, mm.</param>
/// <param name="SunkInMm">What of it reaches the column, mm.</param>
/// <param name="UnmetMm">Use wanted and not met over the days, mm.</param>
public sealed record SpotYear(
    Climate Weather, RootZone Root, ListOf<double> DepletionMm, ListOf<double> ReadilyMm, ListOf<double> WantedMm, ListOf<double> RainInMm,
        ListOf<double> AppliedMm,
    ListOf<double> SunkInMm, double UnmetMm)
{
    /// <summary>Follows the low quarter, or a spot that cans were read for.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="plan">What is set; a controller without a plan gets no water.</param>
    /// <param name="controller">The controller's name.</param>
    /// <param name="station">The station of the zone.</param>
    /// <param name="spot">The spot, from 0; null for the low quarter.</param>
    /// <param name="year">A year of weather.</param>
    /// <exception cref="KeyNotFoundException">The survey has no such controller or station.</exception>
    public static SpotYear Of(Site site, Plan plan, string controller, int station, int? spot, Climate year)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(year);
        SiteController device = site.ControllerNamed(controller);
        Zone zone = device.ZoneAt(station);
        Climate stretch = Seedbed.IsOne(zone) ? Seedbed.WindowsOf(zone, [year])[0] : year;
        IReadOnlyList<Opening> openings = plan.Controllers.FirstOrDefault(c => c.Controller == controller) is { } own
            ? Watered.Of(RulesNowInForce.Of(site.Zone()), device, own, (year.Before ?? year).First.PlusDays(-1), year.Last).Openings
            : [];
        (ZoneDays days, double[] applied, double[] runoff) = ZoneYearReplay.Watering(site, zone, stretch, openings);
        double share = spot is { } at ? LowQuarter.ShareOf(zone.Emission.Spots.Share[at], zone.SoilEvening) : zone.LowQuarterShare;
        double part = share / zone.LowQuarterShare * zone.ReachingShare;
        double[] sunkIn = [.. applied.Zip(runoff, (a, r) => (a - r) * part)];
        RootZone root = RootZone.Of(zone);
        SpotStore store = new(root, depletionMm: 0);
        double[] depletion = new double[days.Days], readily = new double[days.Days];
        double before = 0;
        for (int step = 0; step < days.Steps; step++)
        {
            before = step == days.Lead ? store.UnmetMm : before;
            store.Step(days, step, sunkIn[step]);
            if (step >= days.Lead)
            {
                depletion[days.DayOf(step)] = store.DepletionMm;
                readily[days.DayOf(step)] = days.ReadilyMm[step];
            }
        }

        return new SpotYear(
            stretch, root, [.. depletion], [.. readily], ByDay(days, days.WantedMm), ByDay(days, days.RainInMm), ByDay(days, applied),
                ByDay(days, sunkIn),
            store.UnmetMm - before);
    }

    private static ListOf<double> ByDay(ZoneDays days, double[] bySteps)
    {
        double[] sums = new double[days.Days];
        for (int step = days.Lead; step < bySteps.Length; step++)
        {
            sums[days.DayOf(step)] += bySteps[step];
        }

        return [.. sums];
    }
}
