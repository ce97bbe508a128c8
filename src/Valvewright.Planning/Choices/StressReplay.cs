using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>Stress of a zone over the training years, for one depth on every water day.</summary>
internal sealed class StressReplay
{
    /// <summary>Depths tried at once: the replay runs lanes side by side, so that several cost little more than one.</summary>
    private const int AtOnce = 8;

    /// <summary>The least depth is found to this share of itself.</summary>
    private const double Precision = 0.002;

    private readonly CandidateReplay replay;
    private readonly CandidateOutcomes several;
    private readonly CandidateOutcomes single;
    private readonly double shareOfYears;

    public StressReplay(Zone zone, IReadOnlyList<Climate> training, double shareOfYears)
    {
        replay = new CandidateReplay(zone, training);
        several = replay.RoomFor(AtOnce);
        single = replay.RoomFor(1);
        this.shareOfYears = shareOfYears;
    }

    /// <summary>The water days of a spread: its first phase stands for all, as years of weather don't know which date is a Monday.</summary>
    public Engine.Balance.Kernel.WaterDays DaysOf(WaterDays days, ControllerCase of) =>
        replay.WaterDays(date => of.Season.IsOnAt(date) && days.Phases[0].Rule.WatersOn(date, of.Profile) ? 1 : 0);

    /// <summary>Stress that the kept share of years stays within, spot-days a year.</summary>
    public double KeptStress(Engine.Balance.Kernel.WaterDays days, double grossMm)
    {
        replay.Run(days, [grossMm], single);
        return Kept(single, 0);
    }

    /// <summary>
    /// The least depth from 0 to <paramref name="mostMm"/> that keeps stress within <paramref name="tolerated"/>; where none does, the depth
    /// beyond which more water hardly helps. (More water on the same days never stresses a spot more.)
    /// </summary>
    public double LeastDepthMm(Engine.Balance.Kernel.WaterDays days, double mostMm, double tolerated)
    {
        double goal = Math.Max(tolerated, KeptStress(days, mostMm) + 0.001);
        if (KeptStress(days, 0) <= goal)
        {
            return 0;
        }

        double low = 0, high = mostMm;
        double[] depths = new double[AtOnce];
        while (high - low > Precision * high)
        {
            for (int i = 0; i < AtOnce; i++)
            {
                depths[i] = low + (high - low) * (i + 1) / (AtOnce + 1);
            }

            replay.Run(days, depths, several);
            int first = Array.FindIndex([.. Enumerable.Range(0, AtOnce).Select(i => Kept(several, i) <= goal)], met => met);
            (low, high) = first < 0 ? (depths[^1], high) : (first == 0 ? low : depths[first - 1], depths[first]);
        }

        return high;
    }

    private double Kept(CandidateOutcomes outcomes, int candidate)
    {
        double[] years = [.. Enumerable.Range(0, outcomes.Years).Select(y => outcomes.StressDays[y, candidate]).Order()];
        return years[Math.Clamp((int)Math.Ceiling(shareOfYears * years.Length - 1e-9) - 1, 0, years.Length - 1)];
    }
}
