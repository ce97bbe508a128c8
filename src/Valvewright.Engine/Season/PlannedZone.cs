using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Season;

/// <summary>A zone under the programs of a plan, with its days in every year of record: what a search and the advice within a year ask
/// about.</summary>
public sealed class PlannedZone
{
    private readonly Profile profile;
    private readonly double[][][] isWatered;

    /// <summary>A zone whose station is in at most one program of each set.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="profile">Its controller's profile.</param>
    /// <param name="sets">The sets of programs that may be in force; one for most plans.</param>
    /// <param name="years">The years of record as the zone feels them.</param>
    /// <param name="unmetUseWeight">What a millimeter of unmet use weighs at normal quality, mm of water.</param>
    /// <exception cref="ArgumentException">The station is in two programs of one set.</exception>
    public PlannedZone(Zone zone, Profile profile, IReadOnlyList<IReadOnlyList<Program>> sets, IReadOnlyList<ZoneDays> years,
        double unmetUseWeight)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(sets);
        (Zone, this.profile, Root, Reaching) = (zone, profile, RootZone.Of(zone), zone.ReachingShare);
        Years = [.. years];
        QualityGoal goal = QualityGoal.Of(zone.Quality);
        (Weight, LeastUseMet) = (unmetUseWeight * goal.WeightFactor, goal.LeastUseMet);
        Programs = [.. sets.Select(s => ProgramOf(s, zone.Station))];
        isWatered = [.. Programs.Select(p => Years.Select(y => DaysOf(p, y)).ToArray())];
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>Its root zone.</summary>
    public RootZone Root { get; }

    /// <summary>What of a mean gross depth its low quarter gets.</summary>
    public double Reaching { get; }

    /// <summary>Its days, by year of record.</summary>
    public ZoneDays[] Years { get; }

    /// <summary>What a millimeter of its unmet use weighs, mm of water.</summary>
    public double Weight { get; }

    /// <summary>The part of its use that a plan must meet.</summary>
    public double LeastUseMet { get; }

    /// <summary>The program that waters it in each set; null where none does.</summary>
    public Program?[] Programs { get; }

    /// <summary>Run time of one cycle in a set, s.</summary>
    public int RunSeconds(int set = 0) => Programs[set]?.RunTimes.Where(r => r.Station == Zone.Station).Sum(r => r.Seconds) ?? 0;

    /// <summary>Cycles of one date in a set.</summary>
    public int Cycles(int set = 0) => Programs[set]?.StartTimes.Count ?? 0;

    /// <summary>Gross depth of one date, mm, for a run time of each cycle at a percent.</summary>
    public double DepthOfRunMm(int runSeconds, int percent, int set = 0) =>
        percent == 0 ? 0 : (double)Emulator.PercentOf(runSeconds, percent, profile.Rounding) * Cycles(
            set) / 3600 * Zone.Emission.PrecipitationRateMmPerHour;

    /// <summary>Gross depth of one date, mm, as set.</summary>
    public double DepthMm(int percent, int set = 0) => DepthOfRunMm(RunSeconds(set), percent, set);

    /// <summary>By step of a year, 1 on dates with water and 0 on others.</summary>
    public double[] IsWatered(int year, int set = 0) => isWatered[set][year];

    /// <summary>Moves lanes on over steps of a year.</summary>
    public void Advance(int year, int from, int to, BalanceLanes lanes, int set = 0) =>
        BalanceKernel.Run(Root, Years[year], from, to, isWatered[set][year], lanes);

    /// <summary>Cost of water and unmet use over its area, L: 1 mm over 1 m2 is 1 L.</summary>
    public double Cost(double waterMm, double unmetMm) => Zone.AreaM2 * (waterMm + (Weight * unmetMm));

    private static Program? ProgramOf(IReadOnlyList<Program> all, int station)
    {
        Program[] programs = [.. all.Where(p => p.RunTimes.Any(r => r.Station == station && r.Seconds > 0))];
        return programs.Length switch
        {
            0 => null,
            1 => programs[0],
            _ => throw new ArgumentException(
                $"Station {station} is in programs {string.Join(" and ", programs.Select(p => p.Letter))}; a season is planned for stations in one program each."),
        };
    }

    private double[] DaysOf(Program? program, ZoneDays year)
    {
        double[] days = new double[year.Steps];
        for (int step = 0; step < days.Length; step++)
        {
            days[step] = program?.Days?.WatersOn(year.DateOf(step), profile) == true ? 1 : 0;
        }

        return days;
    }
}
