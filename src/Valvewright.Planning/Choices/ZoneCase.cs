using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Choices;

/// <summary>One zone with its need and all its choices.</summary>
internal sealed class ZoneCase
{
    private readonly ControllerCase of;
    private IReadOnlyList<Choice>? choices;
    private IReadOnlyList<Choice>? lesser;

    public ZoneCase(Zone zone, ZoneNeed need, DepthSearch depths, ControllerCase of)
    {
        Zone = zone;
        Need = need;
        Depths = depths;
        this.of = of;
    }

    public Zone Zone { get; }

    public ZoneNeed Need { get; }

    /// <summary>The depths that suit it over the training years.</summary>
    public DepthSearch Depths { get; }

    /// <summary>The best choice of each spread of days and number of cycles.</summary>
    public IReadOnlyList<Choice> Choices => choices ??= ChoiceTable.Of(this, of);

    /// <summary>Choices that give less than is best; worked out only where the best don't fit.</summary>
    public IReadOnlyList<Choice> Lesser => lesser ??= ChoiceTable.LesserOf(this, of);

    public bool IsSeedbed => Zone.Planting.Stage == PlantStage.NewlySeeded;

    public bool IsDrip => Zone.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler;

    /// <summary>Waterings that every day needs; 1 where the root zone outlasts a day.</summary>
    public int FewestWateringsPerDay => (int)Need.WateringsPerDay.Value;

    /// <summary>Flow in tenths of L/min, rounded up.</summary>
    public int FlowTenths => (int)Math.Ceiling(Zone.Emission.FlowLpm * 10 - 1e-6);

    /// <summary>Longest run time that may be set when there are so many cycles a day.</summary>
    public int LongestRunSeconds(Profile profile, int cycles)
    {
        int longest = Math.Min(profile.RunTimeLimitSeconds, Need.LongestCycleSeconds ?? int.MaxValue);
        longest = Math.Min(longest, Need.LongestDaySeconds is { } day ? day / cycles : int.MaxValue);
        longest = of.Stored.LargestDraw(1) is { } draw ? (int)Math.Min(longest, draw / FlowTenths / cycles) : longest;
        return longest / profile.RunTimeStepSeconds * profile.RunTimeStepSeconds;
    }
}
