namespace Valvewright.Tests.Faults;

/// <summary>
/// A fixed checklist to compare with: what a good technician does, in one order for each complaint, with the one branch that the trade
/// teaches (the valve opened by its bleed: it runs, so the fault is electrical; it does not, so it is hydraulic).
/// </summary>
/// <remarks>
/// Grounds: battery under load, program and rain stop, other zones, shut-offs open, manual bleed, ohms at valve and controller, leads and
/// output exchanged, grit, diaphragm, plunger (common practice, judged against a sister valve). Bettered by what published training
/// teaches: the irrigation troubleshooting class of the Metropolitan Water District of Southern California, written by the Irrigation
/// Training and Research Center of Cal Poly San Luis Obispo (outline read: valve repairs, output at the controller, continuity from
/// controller to valve), hence the output before the wire and the wire before the valve is opened; and the system check of a cooperative
/// extension course, section 3.1 (leaks and broken parts first, then clogging, then pressure), hence the walk first where water is weak or
/// lost. Ours beyond both: it starts with what takes no tools, and leaves out what the complaint rules out.
/// </remarks>
internal static class Checklist
{
    private static readonly string[] Electrical =
        ["click", "box", "pulse", "loop ohms", "coil ohms", "swap leads", "swap output", "plunger", "coil swap", "wire trace", "dig"];

    private static readonly string[] Hydraulic =
        ["flow control", "plunger", "open valve", "filter", "static pressure", "dig"];

    /// <summary>The steps for a complaint, in order.</summary>
    /// <param name="complaint">The complaint.</param>
    /// <param name="bleed">What the bleed showed; null before it was tried.</param>
    public static IEnumerable<string> StepsFor(string complaint, string? bleed) => complaint switch
    {
        "never on" =>
        [
            "display", "battery volts", "settings", "by hand", "sensor", "other stations", "shut-offs", "backflow", "bleed",
            .. bleed is "full" ? Electrical.Concat(Hydraulic) : Hydraulic.Concat(Electrical),
        ],
        "nothing on" =>
        [
            "display", "battery volts", "settings", "clock", "sensor", "by hand", "contacts", "tap", "shut-offs", "backflow", "pump",
                "housing", "pulse", "fresh battery", "bleed",
            .. bleed is "full" ? Electrical.Concat(Hydraulic) : Hydraulic.Concat(Electrical),
        ],
        "sometimes" =>
        [
            "display", "battery volts", "settings", "clock", "due", "contacts", "sensor", "by hand", "box", "click", "loop ohms",
                "coil ohms", "plunger", "coil swap", "bleed", .. Electrical,
        ],
        "will not stop" =>
        [
            "stop", "battery volts", "settings", "bleed screw", "box", "flow control", "swap leads", "open valve", "plunger", "coil ohms",
                "coil swap", "pulse", "swap output",
        ],
        "too long" => ["settings", "clock", "stop", "battery volts", "bleed screw", "watch", "swap leads", "open valve",
            "plunger", "coil swap"],
        "wrong time" => ["clock", "settings", "due", "battery volts", "by hand", "watch", "swap leads", "contacts", "housing"],
        "weak" =>
        [
            "walk", "settings", "other stations", "shut-offs", "backflow", "pump", "filter", "static pressure", "flow control", "nozzle",
                "running pressure", "meter", "bleed", "open valve", "dig",
        ],
        "blank" => ["display", "contacts", "battery volts", "fresh battery", "housing", "battery age", "pulse", "loop ohms", "wire trace"],
        "leaks" => ["seep", "walk", "meter", "bleed screw", "shut-offs", "box", "open valve", "stop", "plunger", "backflow", "dig"],
        "gushes" => ["walk", "settings", "seep", "meter", "nozzle", "stop", "running pressure", "dig"],
        _ => throw new ArgumentException($"No checklist for '{complaint}'.", nameof(complaint)),
    };
}
