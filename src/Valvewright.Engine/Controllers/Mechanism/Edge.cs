using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>A standstill begins or ends.</summary>
internal readonly record struct Edge(long At, bool Begins, Standstill Standstill)
{
    /// <summary>By rising time; on one second those that end come first.</summary>
    public static Edge[] Of(ListOf<Standstill> standstills)
    {
        if (standstills.Count == 0)
        {
            return [];
        }

        List<Edge> edges = [];
        foreach (Standstill spell in standstills)
        {
            if (spell.To > spell.From)
            {
                edges.Add(new Edge(spell.From, true, spell));
                edges.Add(new Edge(spell.To, false, spell));
            }
        }

        return [.. edges.OrderBy(e => e.At).ThenBy(e => e.Begins).ThenBy(e => Rank(e.Standstill.Cause))];
    }

    /// <summary>Which cause a lost start is put down to where several hold.</summary>
    private static int Rank(LostReason cause) => cause switch
    {
        LostReason.NoPower => 0,
        LostReason.Off => 1,
        LostReason.RainHold => 2,
        _ => 3,
    };
}

/// <summary>A run by hand that has something to run.</summary>
/// <param name="At">When.</param>
/// <param name="Program">What it runs.</param>
/// <param name="Lane">Where it runs.</param>
/// <param name="Refused">It falls into a standstill that refuses it.</param>
internal readonly record struct ReadyHandRun(long At, KeyedProgram Program, int Lane, bool Refused)
{
    /// <summary>Those that have something to run, by rising time.</summary>
    public static ReadyHandRun[] Of(Profile profile, List<Stretch> stretches, ControllerState state, int handLane)
    {
        if (state.HandRuns.Count == 0)
        {
            return [];
        }

        bool beside = profile.Overlap == OverlapBehaviour.RunsBeside;
        List<ReadyHandRun> ready = [];
        foreach (HandRun run in state.HandRuns.OrderBy(r => r.At))
        {
            Stretch? stretch = stretches.Find(s => run.At >= s.From && run.At < s.To);
            KeyedProgram? program = run.Station > 0
                ? KeyedProgram.ByHand(run.Station, run.Seconds, handLane)
                : stretch?.Settings.Programs.FirstOrDefault(p => p.Letter == run.Program);
            if (stretch is not null && program is { Seconds.Length: > 0 } && program.Seconds[0] > 0)
            {
                bool refused = state.Standstills.Any(s => s.StopsRunsByHand && run.At >= s.From && run.At < s.To);
                ready.Add(new ReadyHandRun(run.At, program, beside ? program.Index : 0, refused));
            }
        }

        return [.. ready];
    }
}
