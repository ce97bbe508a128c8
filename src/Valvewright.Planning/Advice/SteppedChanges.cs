using NodaTime;

using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning;

/// <summary>Changes that come in sizes, by the number of steps.</summary>
internal sealed class SteppedChanges(Site site, string supply, ControllerCase[] controllers)
{
    /// <summary>Permitted hours are advised in steps of so many minutes.</summary>
    public const int MinutesStep = 5;

    /// <summary>Less water is asked for in steps of 5 %, up to 30 %: beyond that a lawn is no longer the lawn that was surveyed (our
    /// judgement).</summary>
    public const int MostLessSteps = 6;

    private const int LessPercentStep = 5;
    private const int MinutesOfDay = 24 * 60;

    private readonly WaterSupply own = site.SupplyNamed(supply);
    private readonly double flowStep = InWords.FlowStepLpm(site);

    /// <summary>The whole day.</summary>
    public int MostHourSteps => (MinutesOfDay - Longest.Seconds / 60 + MinutesStep - 1) / MinutesStep;

    /// <summary>Every controller's thirstiest station open at once: more flow is never of use.</summary>
    public int MostFlowSteps => FlowStepsOf(controllers.Sum(c => c.Zones.Max(z => z.FlowTenths)) / 10.0 - own.FlowLpm);

    private TimeWindow Longest => MoreHours.Longest(own.Permitted)!;

    public int FlowStepsOf(double lpm) => Math.Max(1, (int)Math.Ceiling(lpm / flowStep - 1e-9));

    public SiteChange Hours(int steps)
    {
        int minutes = steps * MinutesStep;
        int old = (int)(Longest.From.NanosecondOfDay / NodaConstants.NanosecondsPerSecond);
        Sentence when = Longest.Seconds / 60 + minutes >= MinutesOfDay ? (Sentence)"at any hour"
            : (Sentence)$"from {InWords.Time(site, old - minutes * 60)}";
        return new MoreHours(supply, minutes,
            $"{InWords.Minutes(minutes)} more permitted hours on {supply}: {when} instead of {InWords.Time(site, old)}", minutes / 15.0);
    }

    public SiteChange Flow(int steps)
    {
        double lpm = steps * flowStep;
        return new MoreFlow(supply, lpm, $"{InWords.Flow(site, lpm)} more from {supply}: {InWords.Flow(site, own.FlowLpm + lpm)} in all",
            lpm / own.FlowLpm * 10);
    }

    public SiteChange LessAsked(int steps)
    {
        int percent = steps * LessPercentStep;
        return new LessAsked(supply, percent,
            $"{percent}% less water for the plants on {supply} (not new seed): hardier plants, or a drier look", percent * 0.8);
    }
}
