using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>Which cautions go with a step or a repair at a site.</summary>
public static class TraceCautions
{
    /// <summary>The word for a step that touches what comes out of the pipe: its caution depends on the water of the site.</summary>
    public const string Water = "water";

    private const string Traffic = "traffic", Reclaimed = "reclaimed", Dosed = "dosed";

    /// <summary>The hazards of a step: its own, and what the site adds.</summary>
    public static ListOf<NamedThing> Of(FaultModel model, TraceFacts facts, TraceStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return Of(model, facts, step.Hazards);
    }

    /// <summary>The hazards of putting a cause right.</summary>
    public static ListOf<NamedThing> Of(FaultModel model, TraceFacts facts, Cause cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        return Of(model, facts, cause.Hazards);
    }

    private static ListOf<NamedThing> Of(FaultModel model, TraceFacts facts, ListOf<string> own)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(facts);
        HashSet<string> all = [.. own];
        bool wet = all.Remove(Water);
        if (facts.IsAtRoad)
        {
            all.Add(Traffic);
        }

        if (wet && facts.IsReclaimed)
        {
            all.Add(Reclaimed);
        }

        if (wet && facts.IsDosed)
        {
            all.Add(Dosed);
        }

        return model.Hazards.Where(h => all.Contains(h.Name)).ToListOf();
    }
}
