namespace Valvewright.Planning.Choices;

/// <summary>Works out, for each spread of water days and number of cycles, the run time that a zone needs and what it costs.</summary>
internal static class ChoiceTable
{
    /// <summary>Parts of the needed depth that are offered where all of it does not fit: less water, more stress.</summary>
    private static readonly double[] LesserParts = [0.92, 0.84, 0.76, 0.68, 0.60, 0.52];

    /// <summary>The best choice of each spread and number of cycles.</summary>
    public static IReadOnlyList<Choice> Of(ZoneCase zone, ControllerCase of) => Priced(zone, of, [1.0]);

    /// <summary>Choices that water less than is needed, down to the stress that is bearable.</summary>
    public static IReadOnlyList<Choice> LesserOf(ZoneCase zone, ControllerCase of) => Priced(zone, of, LesserParts);

    private static List<Choice> Priced(ZoneCase zone, ControllerCase of, double[] parts)
    {
        List<Choice> choices = [];
        foreach (WaterDays days in of.Offered.Where(d => d.IsDaily || !zone.IsSeedbed))
        {
            Pricing pricing = new(zone, of, days);
            int cycles = zone.FewestWateringsPerDay;
            for (bool met = false; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                foreach (double part in parts)
                {
                    // Once the need is met, more cycles serve only to share a program with a zone that needs them.
                    Choice? choice = pricing.Price(cycles, part);
                    if (choice is not null && (!met || choice.ExcessStress == 0 || part < 1) && choices.LastOrDefault() is var last
                        && !(last?.Days == days && last.Cycles == cycles && last.RunSeconds == choice.RunSeconds))
                    {
                        choices.Add(choice);
                        met |= choice.ExcessStress == 0;
                    }
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
        private readonly WaterDays days;
        private readonly StressReplay.Spread spread;
        private readonly double neededMm;

        public Pricing(ZoneCase zone, ControllerCase of, WaterDays days)
        {
            (this.zone, this.of, this.days, spread) = (zone, of, days, zone.Replay.On(days, of));
            neededMm = Math.Max(zone.Need.ShortestUsefulMm, zone.IsSeedbed ? SeedbedMm() : spread.LeastDepthMm(zone.MostUsefulMm, of.Options.StressToleratedDaysPerYear));
        }

        private double RateMmPerHour => zone.Zone.Emission.PrecipitationRateMmPerHour;

        /// <summary>The run time for a part of the needed depth in so many cycles; null where that leaves more stress than is bearable or the day is too short.</summary>
        public Choice? Price(int cycles, double part)
        {
            int step = of.Profile.RunTimeStepSeconds;
            double wanted = part * neededMm / RateMmPerHour * 3600 / cycles;
            int longest = zone.LongestRunSeconds(of.Profile, cycles);
            int run = wanted >= longest ? longest : (int)Math.Ceiling(wanted / step - 1e-9) * step;
            if (run <= 0 || !FitsTheDay(run, cycles))
            {
                return null;
            }

            double depth = run * cycles / 3600.0 * RateMmPerHour;
            double stress = !zone.IsSeedbed ? spread.KeptStress(depth) : depth >= neededMm - 1e-9 ? 0 : double.PositiveInfinity;
            if (stress > of.Options.StressBearableDaysPerYear)
            {
                return null;
            }

            long excess = (long)Math.Ceiling(Math.Max(0, stress - of.Options.StressToleratedDaysPerYear - 1e-9) * 100);
            return new Choice(days, cycles, run, stress, excess, (long)Math.Round(depth * zone.Zone.AreaM2 * spread.WaterDaysPerYear));
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
    }
}
