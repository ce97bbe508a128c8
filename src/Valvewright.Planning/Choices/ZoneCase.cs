using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Choices;

/// <summary>One zone with its limits and all its choices.</summary>
internal sealed class ZoneCase
{
    public ZoneCase(Zone zone, ZoneYears years, ControllerCase of, PlannerOptions options)
    {
        Zone = zone;
        Limits = ZoneLimits.Of(zone, years, options);
        Choices = ChoiceTable.Of(this, years, of, options);
    }

    public Zone Zone { get; }

    public ZoneLimits Limits { get; }

    public IReadOnlyList<Choice> Choices { get; }

    public bool IsSeedbed => Zone.Planting.Stage == PlantStage.NewlySeeded;

    /// <summary>Flow in tenths of L/min, rounded up.</summary>
    public int FlowTenths => (int)Math.Ceiling(Zone.Emission.FlowLpm * 10 - 1e-6);

    /// <summary>Longest run time that may be keyed in for a cycle.</summary>
    public int LongestRunSeconds(Engine.Controllers.Profile profile)
    {
        int longest = Math.Min(profile.RunTimeLimitSeconds, Limits.LongestCycleSeconds);
        return longest / profile.RunTimeStepSeconds * profile.RunTimeStepSeconds;
    }
}
