using Valvewright.Engine.Needs;

namespace Valvewright.Planning.Choices;

/// <summary>Works out, for each spread of watering days and number of cycles, the run time that suits a zone and what it costs.</summary>
internal static class ChoiceTable
{
    /// <summary>Parts of the best depth that are offered where all of it does not fit: less water, more unmet use, the goal still
    /// met.</summary>
    private static readonly double[] LesserParts = [0.92, 0.84, 0.76, 0.68, 0.60, 0.52];

    /// <summary>Halving the waterings is worth this part of the cost: coils and batteries last longer, leaves stay dry.</summary>
    private const double WorthOfHalfThePulses = 0.01;

    /// <summary>Pulses are counted from a watering per month on.</summary>
    private const double FewWaterings = 12;

    /// <summary>The best choice of each spread and number of cycles.</summary>
    public static IReadOnlyList<Choice> Of(ZoneCase zone, ControllerCase of) => Priced(zone, of, [1.0]);

    /// <summary>Choices that water less than is best.</summary>
    public static IReadOnlyList<Choice> LesserOf(ZoneCase zone, ControllerCase of) => Priced(zone, of, LesserParts);

    private static List<Choice> Priced(ZoneCase zone, ControllerCase of, double[] parts)
    {
        List<Choice> choices = [];
        WaterDays[] offered = [.. of.Offered.Where(d => d.IsDaily || !zone.IsSeedbed)];
        foreach (WaterDays days in offered
            .Where(d => zone.IsSeedbed || d == offered[0] || zone.Depths.PeakNeedMm / d.Frequency <= zone.Need.StorageMm))
        {
            Pricing pricing = new(zone, of, days);
            int cycles = zone.FewestWateringsPerDay;
            for (bool met = false; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                foreach (double part in parts)
                {
                    // Once the depth fits, more cycles serve only to share a program with a zone that needs them.
                    Choice? choice = pricing.Price(cycles, part);
                    if (choice is not null && (!met || choice.Shortfall == 0 || part < 1) && choices.LastOrDefault() is var last
                        && !(last?.Days == days && last.Cycles == cycles && last.RunSeconds == choice.RunSeconds))
                    {
                        choices.Add(choice);
                        met |= choice.Shortfall == 0;
                    }
                }
            }
        }

        return choices;
    }

    /// <summary>One zone on one spread of days.</summary>
    private sealed class Pricing(ZoneCase zone, ControllerCase of, WaterDays days)
    {
        private double RateMmPerHour => zone.Zone.Emission.PrecipitationRateMmPerHour;

        /// <summary>The run time for a part of the best depth in so many cycles; null where the goal is not met or the day is too
        /// short.</summary>
        public Choice? Price(int cycles, double part)
        {
            int step = of.Profile.RunTimeStepSeconds, longest = zone.LongestRunSeconds(of.Profile, cycles);
            return longest <= 0 ? null : zone.IsSeedbed ? Seedbed(cycles, part, longest, step) : Lasting(cycles, part, longest, step);
        }

        private Choice? Lasting(int cycles, double part, int longest, int step)
        {
            double most = Math.Min(zone.Depths.MostUsefulMm, DepthMm(longest, cycles));
            double shortest = DepthMm(Math.Max(UsefulDepth.LeastRunSeconds(zone.Zone), of.Stored.LeastRunSeconds(of.Profile)), cycles);

            // Where no rarer days can be had, a shallow watering is better than a deep one too many.
            bool rarest = days.Frequency <= of.Offered.Min(o => o.Frequency);
            double least = Math.Min(most, rarest ? shortest : Math.Max(UsefulDepth.GrossMm(zone.Zone), shortest));
            bool underSeason = of.Options.PercentOn?.Invoke(of.Controller.Name, of.FirstDate) is not null;
            if (underSeason && part < 1)
            {
                return null;
            }

            MonthlyDepths depths = underSeason
                ? zone.Depths.FindUnder(
                    days, of.Profile, of.Controller.Name, date => (of.Options.PercentOn!(of.Controller.Name, date) ?? 0) / 100, least, most)
                : zone.Depths.Find(days, of.Profile, least, most);
            MonthlyDepths given = part < 1
                ? zone.Depths.Scaled(days, of.Profile, depths, LesserParts)[Array.IndexOf(LesserParts, part)] : depths;
            double largest = Math.Max(given.LargestMm, least);
            int run = Math.Min(longest, RoundTimes.Up(largest / RateMmPerHour * 3600 / cycles, step));
            double shortMm = zone.Depths.ShortMm(given.UnmetMm);
            if (run <= 0 || !FitsTheDay(run, cycles) || (part < 1 && shortMm > 0))
            {
                return null;
            }

            double area = zone.Zone.AreaM2, cost = area * zone.Depths.CostMm(given);
            double pulses = 1 + (WorthOfHalfThePulses * Math.Log2(Math.Max(1, given.Waterings * cycles / FewWaterings)));
            double met = zone.Depths.DemandMm > 0 ? 1 - (given.UnmetMm / zone.Depths.DemandMm) : 1;
            return new Choice(days, cycles, run, met, (long)Math.Ceiling((area * shortMm) - 1e-6), (long)Math.Round(cost * pulses),
                (long)Math.Round(area * given.WaterMm));
        }

        /// <summary>A seedbed gets each day what the hardest day takes, its drier parts served.</summary>
        private Choice? Seedbed(int cycles, double part, int longest, int step)
        {
            double needed = Math.Max(zone.Need.ShortestUsefulMm, zone.Need.PeakUseMm / zone.Zone.ReachingShare);
            int run = Math.Min(longest, (int)Math.Ceiling((part * needed / RateMmPerHour * 3600 / cycles / step) - 1e-9) * step);
            double depth = DepthMm(run, cycles);
            long water = (long)Math.Round(depth * zone.Zone.AreaM2 * Engine.Balance.Seedbed.Days);
            return run > 0 && FitsTheDay(run, cycles) && depth >= needed - 1e-9 ? new Choice(days, cycles, run, 1, 0, water, water) : null;
        }

        private double DepthMm(int run, int cycles) => run * cycles / 3600.0 * RateMmPerHour;

        private bool FitsTheDay(int run, int cycles)
        {
            bool exempt = of.Supply.Permitted.DripIsExempt && zone.IsDrip;
            int hours = exempt ? PermittedSpan.Day : ControllerCase.PermittedSecondsOf(days);
            int longest = exempt ? PermittedSpan.Day : ControllerCase.LongestSpanOf(days);
            return run <= longest && (long)cycles * run <= hours;
        }
    }
}
