using System.Numerics;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Season.Search;

/// <summary>One zone of a season: its spots, its days in every year of record, and its depth of water at each percent.</summary>
internal sealed class ZoneCase
{
    private readonly double[] reachingShare;
    private readonly double[][] depthMm;
    private readonly double[][][] isWaterDay;
    private readonly int[][][] waterDaysBefore;

    /// <param name="zone">The zone.</param>
    /// <param name="profile">Its controller.</param>
    /// <param name="program">Index of the program that waters it among its controller's; -1 for none.</param>
    /// <param name="variants">What its program may become, as it is first; null where it gets no water.</param>
    /// <param name="years">The years of record as the zone feels them.</param>
    /// <param name="percents">The percents that can be set; 0 stands for off.</param>
    public ZoneCase(Zone zone, Profile profile, int program, Program?[] variants, ZoneDays[] years, int[] percents)
    {
        Zone = zone;
        Program = program;
        Root = RootZone.Of(zone);
        Years = years;
        Known = new KnownReplays(years.Length);
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        reachingShare = [.. zone.Emission.Spots.Share.Select(s => s * reaching)];
        Weight = [.. zone.Emission.Spots.Weight];
        depthMm = [.. variants.Select(v => percents.Select(p => DepthAt(zone, profile, v, p)).ToArray())];
        isWaterDay = [.. variants.Select((v, i) => years.Select(y => DaysOf(profile, depthMm[i][^1] > 0 ? v : null, y)).ToArray())];
        waterDaysBefore = [.. isWaterDay.Select(v => v.Select(Before).ToArray())];
    }

    public Zone Zone { get; }

    public RootZone Root { get; }

    public ZoneDays[] Years { get; }

    /// <summary>What has been tried.</summary>
    public KnownReplays Known { get; }

    /// <summary>Area of each spot over the zone's.</summary>
    public double[] Weight { get; }

    /// <summary>Index of its program among its controller's; -1 for none.</summary>
    public int Program { get; }

    /// <summary>How many variants its program has.</summary>
    public int Variants => depthMm.Length;

    public int Spots => Weight.Length;

    /// <summary>Gross depth of one water day, mm, under a variant of its program at a percent.</summary>
    public double DepthMm(int variant, int percent) => depthMm[variant][percent];

    /// <summary>Whether a variant gives no water at any percent.</summary>
    public bool IsOff(int variant) => depthMm[variant][^1] <= 0;

    /// <summary>Room for so many candidates side by side: spot after spot, candidate after candidate.</summary>
    public BalanceLanes LanesFor(int candidates) => new(Spots * candidates);

    /// <summary>Sets the water of a candidate's lanes.</summary>
    public void SetWater(BalanceLanes lanes, int candidates, int candidate, double depthMm)
    {
        for (int spot = 0; spot < reachingShare.Length; spot++)
        {
            lanes.WaterMm[spot * candidates + candidate] = depthMm * reachingShare[spot];
        }
    }

    /// <summary>Moves all lanes on over days of a year, on the water days of a variant.</summary>
    public void Advance(int year, int from, int to, BalanceLanes lanes, int variant = 0)
    {
        if (to > from)
        {
            ZoneDays days = Years[year];
            BalanceKernel.Run(
                Root, days.WantedMm.AsSpan(from, to - from), days.RainInMm.AsSpan(from, to - from), isWaterDay[variant][year].AsSpan(from, to - from), lanes);
        }
    }

    /// <summary>Stress days of a candidate so far, mean over spots by area.</summary>
    public double StressDays(BalanceLanes lanes, int candidates, int candidate)
    {
        double sum = 0;
        for (int spot = 0; spot < Weight.Length; spot++)
        {
            sum += Weight[spot] * lanes.StressSteps[spot * candidates + candidate];
        }

        return sum;
    }

    /// <summary>Sets the water of a candidate's lanes, in the kernel's units.</summary>
    public void SetWater(UnitLanes lanes, int candidates, int candidate, double depthMm)
    {
        for (int spot = 0; spot < reachingShare.Length; spot++)
        {
            lanes.Water[spot * candidates + candidate] = depthMm * reachingShare[spot] * Root.PerStressMm;
        }
    }

    /// <summary>What is left in a full store, in the kernel's units.</summary>
    public double Full => Root.TotalMm * Root.PerStressMm;

    /// <summary>Moves all lanes on over days of a year, on the water days of a variant.</summary>
    public void Advance(int year, int from, int to, UnitLanes lanes, int variant)
    {
        if (to > from)
        {
            ZoneDays days = Years[year];
            BalanceKernel.Run(
                Root, days.WantedMm.AsSpan(from, to - from), days.RainInMm.AsSpan(from, to - from), isWaterDay[variant][year].AsSpan(from, to - from), lanes);
        }
    }

    /// <summary>Stress days of each of some candidates over so many days, mean over spots by area.</summary>
    public void StressDays(UnitLanes lanes, int days, Span<double> byCandidate)
    {
        int candidates = byCandidate.Length, width = Vector<double>.Count;
        byCandidate.Clear();
        for (int spot = 0; spot < Weight.Length; spot++)
        {
            double weight = Weight[spot];
            ReadOnlySpan<double> unstressed = lanes.Unstressed.AsSpan(spot * candidates, candidates);
            int candidate = 0;
            for (; candidate <= candidates - width; candidate += width)
            {
                (new Vector<double>(byCandidate[candidate..]) + (weight * (new Vector<double>(days) - new Vector<double>(unstressed[candidate..])))).CopyTo(byCandidate[candidate..]);
            }

            for (; candidate < candidates; candidate++)
            {
                byCandidate[candidate] += weight * (days - unstressed[candidate]);
            }
        }
    }

    /// <summary>Water days of a year from one day to before another.</summary>
    public int WaterDays(int year, int from, int to, int variant = 0) => to > from ? waterDaysBefore[variant][year][to] - waterDaysBefore[variant][year][from] : 0;

    private static int[] Before(double[] isWaterDay)
    {
        int[] before = new int[isWaterDay.Length + 1];
        for (int day = 0; day < isWaterDay.Length; day++)
        {
            before[day + 1] = before[day] + (isWaterDay[day] > 0 ? 1 : 0);
        }

        return before;
    }

    private static double DepthAt(Zone zone, Profile profile, Program? program, int percent)
    {
        if (program is null || percent == 0)
        {
            return 0;
        }

        int seconds = program.RunTimes.Where(r => r.Station == zone.Station).Sum(r => Emulator.PercentOf(r.Seconds, percent, profile.Rounding));
        return (double)seconds * program.StartTimes.Count / 3600 * zone.Emission.PrecipitationRateMmPerHour;
    }

    private static double[] DaysOf(Profile profile, Program? program, ZoneDays year)
    {
        double[] days = new double[year.Days];
        for (int day = 0; day < days.Length; day++)
        {
            LocalDate date = year.Climate.DateOf(day);
            days[day] = program?.Days?.WatersOn(date, profile) == true ? 1 : 0;
        }

        return days;
    }
}
