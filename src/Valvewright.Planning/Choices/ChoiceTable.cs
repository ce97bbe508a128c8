using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>Works out, for each spread of water days and number of cycles, the run time that a zone needs and what it costs.</summary>
internal static class ChoiceTable
{
    public static IReadOnlyList<Choice> Of(ZoneCase zone, ControllerCase of, IReadOnlyList<Climate> training, PlannerOptions options)
    {
        StressReplay replay = new(zone.Zone, training, options.ShareOfYearsKept);
        List<Choice> choices = [];
        foreach (WaterDays days in of.Offered.Where(d => d.IsDaily || !zone.IsSeedbed))
        {
            Pricing pricing = new(zone, of, options, days, replay, training);
            int cycles = zone.FewestWateringsPerDay;
            for (bool met = false; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                // Once the need is met, more cycles serve only to share a program with a zone that needs them.
                Choice? choice = pricing.Price(cycles);
                if (choice is not null && (!met || choice.ExcessStress == 0))
                {
                    choices.Add(choice);
                    met |= choice.ExcessStress == 0;
                }
            }
        }

        return choices;
    }

    /// <summary>One zone on one spread of days.</summary>
    private sealed class Pricing
    {
        private readonly ZoneCase zone;
        private readonly ControllerCase of;
        private readonly PlannerOptions options;
        private readonly WaterDays days;
        private readonly StressReplay replay;
        private readonly Engine.Balance.WaterDays water;
        private readonly double neededMm;
        private readonly double waterDaysPerYear;

        public Pricing(ZoneCase zone, ControllerCase of, PlannerOptions options, WaterDays days, StressReplay replay, IReadOnlyList<Climate> training)
        {
            (this.zone, this.of, this.options, this.days, this.replay) = (zone, of, options, days, replay);
            water = replay.DaysOf(days, of);
            waterDaysPerYear = training.Average(c => Enumerable.Range(0, c.Days).Count(d => of.Season.IsOnAt(c.DateOf(d)) && days.Phases[0].Rule.WatersOn(c.DateOf(d), of.Profile)));
            neededMm = Math.Max(zone.Need.ShortestUsefulMm, zone.IsSeedbed ? SeedbedMm() : replay.LeastDepthMm(water, MostUsefulMm(), options.StressToleratedDaysPerYear));
        }

        private double RateMmPerHour => zone.Zone.Emission.PrecipitationRateMmPerHour;

        /// <summary>The run time for so many cycles; null where limits leave more stress than is bearable or the day is too short.</summary>
        public Choice? Price(int cycles)
        {
            int step = of.Profile.RunTimeStepSeconds;
            double wanted = neededMm / RateMmPerHour * 3600 / cycles;
            int longest = zone.LongestRunSeconds(of.Profile, cycles);
            int run = wanted >= longest ? longest : (int)Math.Ceiling(wanted / step - 1e-9) * step;
            if (run <= 0 || !FitsTheDay(run, cycles))
            {
                return null;
            }

            double depth = run * cycles / 3600.0 * RateMmPerHour;
            double stress = !zone.IsSeedbed ? replay.KeptStress(water, depth) : depth >= neededMm - 1e-9 ? 0 : double.PositiveInfinity;
            if (stress > options.StressBearableDaysPerYear)
            {
                return null;
            }

            long excess = (long)Math.Ceiling(Math.Max(0, stress - options.StressToleratedDaysPerYear - 1e-9) * 100);
            return new Choice(days, cycles, run, stress, excess, (long)Math.Round(depth * zone.Zone.AreaM2 * waterDaysPerYear));
        }

        private bool FitsTheDay(int run, int cycles)
        {
            bool exempt = of.Supply.Permitted.DripIsExempt && zone.IsDrip;
            int hours = exempt ? PermittedSpan.Day : ControllerCase.PermittedSecondsOf(days);
            int longest = exempt ? PermittedSpan.Day : ControllerCase.LongestSpanOf(days);
            return run <= longest && (long)cycles * run <= hours;
        }

        /// <summary>A seedbed gets each day what the hardest day takes, its drier spots served.</summary>
        private double SeedbedMm() => zone.Need.PeakUseMm * zone.Need.RunTimeMultiplier / (1 - zone.Zone.Emission.ApplicationLossFraction);

        /// <summary>What fills the driest spot that gets any water from wilting point; more is never of use.</summary>
        private double MostUsefulMm()
        {
            double driest = zone.Zone.Emission.Spots.Share.Where(s => s > 0.05).DefaultIfEmpty(1).Min();
            return zone.Need.StorageMm / driest / (1 - zone.Zone.Emission.ApplicationLossFraction);
        }
    }
}
