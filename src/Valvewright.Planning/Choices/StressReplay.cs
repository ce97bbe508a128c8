using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>
/// Stress of a zone over the training years, for one depth on every water day. What was worked out is kept: planning again with
/// one thing of a site changed asks most of it again.
/// </summary>
internal sealed class StressReplay
{
    /// <summary>Depths tried at once: the replay runs lanes side by side, so that several cost little more than one.</summary>
    private const int AtOnce = 8;

    /// <summary>The least depth is found to this share of itself.</summary>
    private const double Precision = 0.002;

    private readonly CandidateReplay replay;
    private readonly CandidateOutcomes several;
    private readonly CandidateOutcomes single;
    private readonly IReadOnlyList<Climate> training;
    private readonly double shareOfYears;
    private readonly Dictionary<SpreadKey, Spread> spreads = [];
    private readonly Lock gate = new();

    public StressReplay(Zone zone, IReadOnlyList<Climate> training, double shareOfYears)
    {
        replay = new CandidateReplay(zone, training);
        several = replay.RoomFor(AtOnce);
        single = replay.RoomFor(1);
        this.training = training;
        this.shareOfYears = shareOfYears;
    }

    /// <summary>The water days of a spread: its first phase stands for all, as years of weather don't know which date is a Monday.</summary>
    public Spread On(WaterDays days, ControllerCase of)
    {
        DayRule rule = days.Phases[0].Rule;
        SpreadKey key = new(rule, of.Profile.OddSkips31, of.Profile.OddSkips29February, of.Season, of.Options.ShareOn is null ? null : of.Controller.Name);
        lock (gate)
        {
            if (!spreads.TryGetValue(key, out Spread? spread))
            {
                double Share(LocalDate date) => rule.WatersOn(date, of.Profile) ? of.ShareOn(date) : 0;
                double perYear = training.Average(c => Enumerable.Range(0, c.Days).Sum(d => Share(c.DateOf(d))));
                spread = new Spread(this, replay.WaterDays(Share), perYear);
                spreads.Add(key, spread);
            }

            return spread;
        }
    }

    private double Kept(CandidateOutcomes outcomes, int candidate)
    {
        double[] years = [.. Enumerable.Range(0, outcomes.Years).Select(y => outcomes.StressDays[y, candidate]).Order()];
        return years[Math.Clamp((int)Math.Ceiling(shareOfYears * years.Length - 1e-9) - 1, 0, years.Length - 1)];
    }

    /// <summary>What tells one spread's dates from another's.</summary>
    private readonly record struct SpreadKey(DayRule Rule, bool OddSkips31, bool OddSkips29February, IrrigationSeason Season, string? SharesOf);

    /// <summary>The zone on one spread of water days.</summary>
    internal sealed class Spread(StressReplay of, Engine.Balance.Kernel.WaterDays water, double waterDaysPerYear)
    {
        private readonly Dictionary<double, double> stressByDepth = [];
        private readonly Dictionary<(double Most, double Tolerated), double> leastDepths = [];

        /// <summary>Water days in a mean training year; those on which a part of the run time is set count as that part.</summary>
        public double WaterDaysPerYear => waterDaysPerYear;

        /// <summary>Stress that the kept share of years stays within, spot-days a year.</summary>
        public double KeptStress(double grossMm)
        {
            lock (of.gate)
            {
                if (!stressByDepth.TryGetValue(grossMm, out double stress))
                {
                    of.replay.Run(water, [grossMm], of.single);
                    stress = of.Kept(of.single, 0);
                    stressByDepth.Add(grossMm, stress);
                }

                return stress;
            }
        }

        /// <summary>
        /// The least depth from 0 to <paramref name="mostMm"/> that keeps stress within <paramref name="tolerated"/>; where none does, the
        /// depth beyond which more water hardly helps. (More water on the same days never stresses a spot more.)
        /// </summary>
        public double LeastDepthMm(double mostMm, double tolerated)
        {
            lock (of.gate)
            {
                if (!leastDepths.TryGetValue((mostMm, tolerated), out double least))
                {
                    least = Narrowed(mostMm, tolerated);
                    leastDepths.Add((mostMm, tolerated), least);
                }

                return least;
            }
        }

        private double Narrowed(double mostMm, double tolerated)
        {
            double goal = Math.Max(tolerated, KeptStress(mostMm) + 0.001);
            if (KeptStress(0) <= goal)
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

                of.replay.Run(water, depths, of.several);
                int first = Array.FindIndex([.. Enumerable.Range(0, AtOnce).Select(i => of.Kept(of.several, i) <= goal)], met => met);
                (low, high) = first < 0 ? (depths[^1], high) : (first == 0 ? low : depths[first - 1], depths[first]);
            }

            return high;
        }
    }
}
