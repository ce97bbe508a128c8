using Valvewright.Engine.Controllers;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Hours;

/// <summary>A piece of a run with constant flow.</summary>
internal readonly record struct FlowPiece(int Offset, int Seconds, int FlowTenths);

/// <summary>One start of a program drawn out: a fixed shape of flow that moves with its start time.</summary>
/// <param name="Seconds">From the start until everything is shut.</param>
/// <param name="StartToStartSeconds">Least distance to the program's next start: the run has ended and every station's ground has
/// soaked.</param>
/// <param name="Flow">Flow over the run, each change of flow stretched by the guard so that a neighbour's clock may be off by that
/// much.</param>
/// <param name="Overhead">From the first opening of a sprinkler over established plants to the last closing, seconds after the start; null
/// where the run has none.</param>
internal sealed record RunShape(int Seconds, int StartToStartSeconds, IReadOnlyList<FlowPiece> Flow, (int From, int To)? Overhead)
{
    public static RunShape Of(ProgramDraft program, ControllerCase of, int guardSeconds)
    {
        Profile profile = of.Profile;
        int clock = profile.Pump?.LeadSeconds ?? 0;
        int spacing = 0;
        List<FlowPiece> pieces = [];
        (int From, int To)? overhead = null;
        foreach (StationDraft station in program.Stations.OrderBy(s => of.Zones[s.Zone].Zone.Station))
        {
            ZoneCase zone = of.Zones[station.Zone];
            if (pieces.Count > 0)
            {
                clock += profile.PauseBetweenStationsSeconds;
            }

            int run = station.Choice.RunSeconds;
            pieces.Add(new FlowPiece(clock, run, zone.FlowTenths));
            if (!zone.IsDrip && !zone.IsSeedbed)
            {
                overhead = (overhead?.From ?? clock, clock + run);
            }

            clock += run;
            spacing = Math.Max(spacing, program.Cycles > 1 ? run + zone.Need.SoakSeconds : 0);
        }

        clock += profile.Pump?.LagSeconds ?? 0;
        return new RunShape(
            clock, Math.Max(spacing, clock + profile.PauseBetweenStationsSeconds), Stretched(pieces, guardSeconds), overhead);
    }

    /// <summary>At every second the largest flow of the guard's length before it: any clock error up to the guard is covered.</summary>
    private static List<FlowPiece> Stretched(List<FlowPiece> pieces, int guard)
    {
        int[] cuts = [.. pieces.SelectMany(p => new[] { p.Offset, p.Offset + p.Seconds, p.Offset + p.Seconds + guard }).Distinct().Order()];
        List<FlowPiece> stretched = [];
        for (int i = 0; i + 1 < cuts.Length; i++)
        {
            int from = cuts[i], to = cuts[i + 1];
            int flow = pieces.Where(p => p.Offset < to && p.Offset + p.Seconds + guard > from).Select(p => p.FlowTenths)
                .DefaultIfEmpty(0).Max();
            if (flow == 0)
            {
                continue;
            }

            if (stretched.Count > 0 && stretched[^1].FlowTenths == flow && stretched[^1].Offset + stretched[^1].Seconds == from)
            {
                stretched[^1] = stretched[^1] with { Seconds = to - stretched[^1].Offset };
            }
            else
            {
                stretched.Add(new FlowPiece(from, to - from, flow));
            }
        }

        return stretched;
    }
}
