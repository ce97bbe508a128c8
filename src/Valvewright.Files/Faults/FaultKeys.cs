using Valvewright.Engine.Faults;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Faults;

/// <summary>The keys and words of a fault model; each stands in its schema under the same name.</summary>
internal static class FaultKeys
{
    internal static readonly KeySet Root = new(
        "fault model", "model", "source", "prior cases", "wrong answers", "two at once", "something else", "sure", "wrong diagnosis", "places", "needs", "hazards", "complaints", "steps", "causes");

    internal static readonly KeySet Place = new("place", "place", "minutes", "en", "es");
    internal static readonly KeySet Need = new("need", "need", "en", "es");
    internal static readonly KeySet Hazard = new("hazard", "hazard", "en", "es");
    internal static readonly KeySet Complaint = new("complaint", "complaint", "en", "es", "says");

    internal static readonly KeySet Step = new(
        "step", "step", "place", "minutes", "phone", "when", "needs", "hazards", "expects", "en", "es", "short", "answers");

    internal static readonly KeySet Answer = new("answer", "answer", "usual", "en", "es", "findings", "reads");
    internal static readonly KeySet Reads = new("reads", "times", "spread", "from", "to");
    internal static readonly KeySet Tongues = new("text", "en", "es");

    internal static readonly KeySet Cause = new(
        "cause", "cause", "weight", "group", "when", "en", "es", "complaints", "shows", "do", "parts", "hazards", "minutes");

    internal static readonly Dictionary<string, Expected> Quantities = new()
    {
        ["battery volts"] = Expected.BatteryVolts,
        ["loop ohms"] = Expected.LoopOhms,
        ["coil ohms"] = Expected.CoilOhms,
        ["static pressure"] = Expected.StaticPressure,
        ["running pressure"] = Expected.RunningPressure,
    };

    internal static IReadOnlyList<KeySet> All { get; } = [Root, Place, Need, Hazard, Complaint, Step, Answer, Reads, Tongues, Cause];
}
