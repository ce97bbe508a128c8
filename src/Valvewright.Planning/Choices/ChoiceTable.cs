using Valvewright.Engine.Controllers;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Choices;

/// <summary>Works out, for each spread of water days and number of cycles, the run time that a zone needs and what it costs.</summary>
internal static class ChoiceTable
{
    /// <summary>The needed depth is found to this share of itself.</summary>
    private const double Precision = 0.002;

    public static IReadOnlyList<Choice> Of(ZoneCase zone, ZoneYears years, ControllerCase of, PlannerOptions options)
    {
        List<Choice> choices = [];
        foreach (WaterDays days in of.Offered)
        {
            if (zone.IsSeedbed && !days.IsDaily)
            {
                continue;
            }

            bool[][] water = [.. years.Training.Select(c => Enumerable.Range(0, c.Days).Select(d =>
                of.Season.IsOnAt(c.DateOf(d)) && days.Phases[0].Rule.WatersOn(c.DateOf(d), of.Profile)).ToArray())];
            double waterDaysPerYear = water.Average(w => (double)w.Count(on => on));
            double needed = zone.IsSeedbed ? SeedbedDepthMm(zone.Zone, years) : LeastDepthMm(years, water, zone, options);
            for (int cycles = zone.Limits.FewestWateringsPerDay; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                Choice? choice = Priced(zone, years, of, options, days, water, cycles, needed, waterDaysPerYear);
                if (choice is not null)
                {
                    choices.Add(choice);
                    if (choice.ExcessStress == 0)
                    {
                        break; // more cycles than needed only add start times; sharing a program with a zone that needs more is added below
                    }
                }
            }
        }

        return WithMoreCycles(choices, zone, of);
    }

    /// <summary>A zone that needs few cycles can share a program with one that needs more: the same depth in more, shorter runs.</summary>
    private static List<Choice> WithMoreCycles(List<Choice> choices, ZoneCase zone, ControllerCase of)
    {
        List<Choice> all = [.. choices];
        foreach (Choice met in choices.Where(c => c.ExcessStress == 0))
        {
            for (int cycles = met.Cycles + 1; cycles <= of.Profile.StartTimesPerProgram; cycles++)
            {
                int step = of.Profile.RunTimeStepSeconds;
                int run = ((met.RunSeconds * met.Cycles + cycles - 1) / cycles + step - 1) / step * step;
                double depth = run * cycles / 3600.0 * zone.Zone.Emission.PrecipitationRateMmPerHour;
                if (FitsDay(zone.Zone, depth) && FitsNight(zone, of, met.Days, run, cycles))
                {
                    long litres = (long)Math.Round(met.LitresPerYear * ((double)run * cycles / (met.RunSeconds * met.Cycles)));
                    all.Add(met with { Cycles = cycles, RunSeconds = run, LitresPerYear = litres });
                }
            }
        }

        return all;
    }

    private static Choice? Priced(
        ZoneCase zone, ZoneYears years, ControllerCase of, PlannerOptions options, WaterDays days, bool[][] water, int cycles, double neededMm, double waterDaysPerYear)
    {
        double rate = zone.Zone.Emission.PrecipitationRateMmPerHour;
        int step = of.Profile.RunTimeStepSeconds;
        double wantedSeconds = Math.Max(neededMm, zone.Limits.LeastUsefulMm) / rate * 3600 / cycles;
        int longest = zone.LongestRunSeconds(of.Profile);
        if (!double.IsNaN(zone.Zone.LargestDepthPerDayMm))
        {
            longest = Math.Min(longest, (int)(zone.Zone.LargestDepthPerDayMm / rate * 3600 / cycles + 1e-6) / step * step);
        }

        int run = wantedSeconds >= longest ? longest : (int)Math.Ceiling(wantedSeconds / step - 1e-9) * step;
        if (run <= 0 || !FitsNight(zone, of, days, run, cycles))
        {
            return null;
        }

        double depth = run * cycles / 3600.0 * rate;
        double stress = zone.IsSeedbed
            ? (depth >= neededMm - 1e-9 ? 0 : double.PositiveInfinity)
            : years.KeptStress(depth, water, options.ShareOfYearsKept);
        if (stress > options.StressBearableDaysPerYear)
        {
            return null;
        }

        long excess = (long)Math.Ceiling(Math.Max(0, stress - options.StressToleratedDaysPerYear - 1e-9) * 100);
        return new Choice(days, cycles, run, stress, excess, (long)Math.Round(depth * zone.Zone.AreaM2 * waterDaysPerYear));
    }

    private static bool FitsDay(Zone zone, double depthMm) => !(depthMm > zone.LargestDepthPerDayMm + 1e-9);

    private static bool FitsNight(ZoneCase zone, ControllerCase of, WaterDays days, int run, int cycles)
    {
        bool exempt = of.Supply.Permitted.DripIsExempt && zone.Zone.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler;
        int night = exempt ? PermittedSpan.Day : ControllerCase.PermittedSecondsOf(days);
        int longestSpan = exempt ? PermittedSpan.Day : ControllerCase.LongestSpanOf(days);
        return run <= longestSpan && (long)cycles * run <= night;
    }

    /// <summary>A seedbed gets each day what a hot day takes from its drier quarter.</summary>
    private static double SeedbedDepthMm(Zone zone, ZoneYears years)
    {
        (double Share, double Weight)[] dry = [.. zone.Emission.Spots.Share.Zip(zone.Emission.Spots.Weight).OrderBy(s => s.First)];
        double taken = 0, sum = 0;
        foreach ((double share, double weight) in dry)
        {
            double part = Math.Min(weight, 0.25 - taken);
            sum += share * Math.Max(0, part);
            taken += Math.Max(0, part);
        }

        double lowQuarter = Math.Max(0.2, sum / taken);
        return years.PeakWantedMm / lowQuarter / (1 - zone.Emission.ApplicationLossFraction);
    }

    /// <summary>The least depth a water day that keeps stress within the tolerated; where none does, the depth beyond which more doesn't help.</summary>
    private static double LeastDepthMm(ZoneYears years, bool[][] water, ZoneCase zone, PlannerOptions options)
    {
        double Stress(double depth) => years.KeptStress(depth, water, options.ShareOfYearsKept);
        double driest = zone.Zone.Emission.Spots.Share.Where(s => s > 0).DefaultIfEmpty(1).Min();
        double high = years.Root.TotalMm / driest / (1 - zone.Zone.Emission.ApplicationLossFraction);
        double goal = options.StressToleratedDaysPerYear;
        double least = Stress(high);
        if (least > goal)
        {
            goal = least + 0.01; // cannot be met: come as near as water can
        }

        double low = 0;
        if (Stress(0) <= goal)
        {
            return 0;
        }

        double guess = years.Root.ReadilyMm;
        while (guess < high && Stress(guess) > goal)
        {
            low = guess;
            guess *= 1.6;
        }

        high = Math.Min(high, guess);
        while (high - low > Precision * high)
        {
            double middle = (low + high) / 2;
            (low, high) = Stress(middle) <= goal ? (low, middle) : (middle, high);
        }

        return high;
    }
}
