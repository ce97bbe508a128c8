using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>One zone with its need and all its choices.</summary>
internal sealed class ZoneCase
{
    public ZoneCase(Zone zone, ZoneNeed need, ControllerCase of, IReadOnlyList<Climate> training, PlannerOptions options)
    {
        Zone = zone;
        Need = need;
        Choices = ChoiceTable.Of(this, of, training, options);
    }

    public Zone Zone { get; }

    public ZoneNeed Need { get; }

    public IReadOnlyList<Choice> Choices { get; }

    public bool IsSeedbed => Zone.Planting.Stage == PlantStage.NewlySeeded;

    public bool IsDrip => Zone.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler;

    /// <summary>Waterings that every day needs; 1 where the root zone outlasts a day.</summary>
    public int FewestWateringsPerDay => (int)Need.WateringsPerDay.Value;

    /// <summary>Flow in tenths of L/min, rounded up.</summary>
    public int FlowTenths => (int)Math.Ceiling(Zone.Emission.FlowLpm * 10 - 1e-6);

    /// <summary>Longest run time that may be keyed in when there are so many cycles a day.</summary>
    public int LongestRunSeconds(Profile profile, int cycles)
    {
        int longest = Math.Min(profile.RunTimeLimitSeconds, Need.LongestCycleSeconds ?? int.MaxValue);
        longest = Math.Min(longest, Need.LongestDaySeconds is { } day ? day / cycles : int.MaxValue);
        return longest / profile.RunTimeStepSeconds * profile.RunTimeStepSeconds;
    }
}
