using Valvewright.Engine.Controllers;

namespace Valvewright.Engine.Checks;

/// <summary>What a deviation from the plan leads to that the plan itself does not.</summary>
internal sealed class Consequences(Inspection on)
{
    private readonly Lazy<(bool Outside, HashSet<(char, char)> Overlaps, bool Flow)> planned =
        new(() => Of(on, on.World.Run(on.Expected with { Off = false })));

    /// <summary>The heaviest kind of consequence, null for none, and a sentence for each.</summary>
    /// <param name="deviating">The plan with the one deviation.</param>
    public (FindingKind? Kind, string Sentences) Of(AsFound deviating)
    {
        Doings doings = on.World.Run(deviating with { Off = false, ClockShows = null, RainHoldDays = 0 });
        (bool outside, HashSet<(char Late, char Running)> overlaps, bool flow) = Of(on, doings);
        List<string> sentences = [];
        FindingKind? kind = null;
        if (outside && !planned.Value.Outside)
        {
            kind = FindingKind.OutsideHours;
            sentences.Add(on.Words.Say("then.hours", on.Supply));
        }

        overlaps.ExceptWith(planned.Value.Overlaps);
        if (overlaps.Count > 0)
        {
            kind ??= FindingKind.Overlap;
            (char late, char running) = overlaps.Order().First();
            sentences.Add(late == running ? on.Words.Say("then.self") : on.Words.Say(Name("then", doings.Overlap), late, running));
        }

        if (flow && !planned.Value.Flow)
        {
            kind ??= FindingKind.SharedPipe;
            sentences.Add(on.Words.Say("then.flow", on.Supply));
        }

        return (kind, string.Concat(sentences.Select(s => " " + s)));
    }

    /// <summary>The text for what a profile does with programs that overlap.</summary>
    public static string Name(string group, OverlapBehaviour overlap) => group + overlap switch
    {
        OverlapBehaviour.Lost => ".lost",
        OverlapBehaviour.RunsBeside => ".beside",
        _ => ".waits",
    };

    private static (bool Outside, HashSet<(char Late, char Running)> Overlaps, bool Flow) Of(Inspection on, Doings doings) =>
        (on.World.OutsidePermitted(doings).Count > 0, [.. doings.Overlaps().Select(o => (o.Late, o.Running))],
            on.World.TooMuchFlow(doings) is not null);
}
