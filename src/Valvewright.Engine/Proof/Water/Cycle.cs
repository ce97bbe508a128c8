
namespace Valvewright.Engine.Proof.Water;

/// <summary>A station's openings that follow each other without a pause worth the name: to the ground they are one cycle.</summary>
/// <param name="First">The first of them.</param>
/// <param name="Seconds">How long it is open in all.</param>
/// <param name="DepthMm">Gross depth, mean over the zone.</param>
/// <param name="RunoffMm">The part of it that runs off.</param>
/// <param name="StandingBeforeMm">What stood on the surface when it began.</param>
internal readonly record struct Cycle(Opening First, long Seconds, double DepthMm, double RunoffMm, double StandingBeforeMm)
{
    /// <summary>A shorter pause than this is none: too little goes in to matter.</summary>
    private const long PauseSeconds = 60;

    /// <summary>The cycles of a station, by rising time, with what each does to the ground.</summary>
    public static IEnumerable<Cycle> Of(IEnumerable<Opening> byTime, PondingGround ground)
    {
        Cycle? current = null;
        long end = long.MinValue;
        foreach (Opening opening in byTime)
        {
            (double before, double runoff) = ground.Water(opening.OpensUnix, opening.ClosesUnix);
            if (current is { } running && opening.OpensUnix - end < PauseSeconds)
            {
                current = running with { Seconds = running.Seconds + opening.ClosesUnix - opening.OpensUnix,
                    DepthMm = running.DepthMm + opening.DepthMm, RunoffMm = running.RunoffMm + runoff };
            }
            else
            {
                if (current is { } done)
                {
                    yield return done;
                }

                current = new Cycle(opening, opening.ClosesUnix - opening.OpensUnix, opening.DepthMm, runoff, before);
            }

            end = opening.ClosesUnix;
        }

        if (current is { } last)
        {
            yield return last;
        }
    }
}
