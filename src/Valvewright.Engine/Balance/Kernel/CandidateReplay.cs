using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance.Kernel;

/// <summary>
/// Replays one zone under many depths of water at once, over several years: what a planner asks when it weighs water days against
/// run times. Runoff of irrigation is not in it: candidates are taken to respect cycle and soak.
/// </summary>
public sealed class CandidateReplay
{
    /// <summary>A share of work for a thread: large enough to be worth handing out, small enough that threads finish together.</summary>
    private const int LanesPerPart = 8 * BalanceLanes.Block;

    private readonly Zone zone;
    private readonly RootZone root;
    private readonly ZoneDays[] years;

    /// <summary>Prepares a zone for years of weather; each year is followed on its own, its spots at field capacity at first.</summary>
    public CandidateReplay(Zone zone, IReadOnlyList<Climate> years)
        : this(zone, [.. (years ?? throw new ArgumentNullException(nameof(years))).Select(y => ZoneDays.Of(zone, y))])
    {
    }

    /// <summary>The same for days, or hours, worked out before.</summary>
    public CandidateReplay(Zone zone, IReadOnlyList<ZoneDays> years)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(years);
        this.zone = zone;
        root = RootZone.Of(zone);
        this.years = [.. years];
    }

    /// <summary>How many years are replayed.</summary>
    public int Years => years.Length;

    /// <summary>Depletion of every spot at the beginning of each year, mm.</summary>
    public double StartDepletionMm { get; init; }

    /// <summary>The days of a year as the zone feels them.</summary>
    public ZoneDays DaysOf(int year) => years[year];

    /// <summary>Turns a rule into water days: worked out once, used for any number of runs.</summary>
    /// <param name="shareOfDepth">
    /// The part of a candidate's depth that falls on a date: 0 on days without watering, else 1, or the percent of the season as a fraction.
    /// </param>
    /// <remarks>With hourly steps all of it falls in the first hour of the date; <see cref="WaterHours"/> says which hour.</remarks>
    public WaterDays WaterDays(Func<LocalDate, double> shareOfDepth)
    {
        ArgumentNullException.ThrowIfNull(shareOfDepth);
        return WaterHours((date, hour) => hour == 0 ? shareOfDepth(date) : 0);
    }

    /// <summary>The same by hour of the controller's clock, 0 to 23, where steps are hours.</summary>
    public WaterDays WaterHours(Func<LocalDate, int, double> shareOfDepth)
    {
        ArgumentNullException.ThrowIfNull(shareOfDepth);
        double[][] shares = new double[years.Length][];
        for (int year = 0; year < years.Length; year++)
        {
            ZoneDays days = years[year];
            shares[year] = new double[days.Steps];
            for (int step = 0; step < days.Steps; step++)
            {
                shares[year][step] = shareOfDepth(days.Climate.DateOf(days.DayOf(step)), step % days.StepsPerDay);
            }
        }

        return new WaterDays(shares);
    }

    /// <summary>Room for the outcomes of so many candidates, to be used again and again.</summary>
    public CandidateOutcomes RoomFor(int candidates) => new(zone.Emission.Spots.Share.Count, years.Length, candidates);

    /// <summary>Replays every candidate depth on the water days.</summary>
    /// <param name="days">On which days, and how much of the depth.</param>
    /// <param name="grossMm">Gross depth per water day of each candidate, mean over the zone, mm.</param>
    /// <param name="outcomes">Where the results go.</param>
    /// <param name="threads">How many threads share the work; results do not depend on it.</param>
    public void Run(WaterDays days, ReadOnlySpan<double> grossMm, CandidateOutcomes outcomes, int threads = 1)
    {
        ArgumentNullException.ThrowIfNull(days);
        ArgumentNullException.ThrowIfNull(outcomes);
        if (grossMm.Length != outcomes.Candidates || outcomes.Years != years.Length || days.Shares.Length != years.Length)
        {
            throw new ArgumentException(
                $"{grossMm.Length} depths and {days.Shares.Length} years of water days, but room for {outcomes.Candidates} candidates and {outcomes.Years} years.");
        }

        outcomes.Spread(grossMm, zone.Emission);
        if (threads <= 1)
        {
            for (int year = 0; year < years.Length; year++)
            {
                outcomes.Lanes[year].Reset(StartDepletionMm);
                RunLanes(year, 0, outcomes.Lanes[year].DepletionMm.Length, days, outcomes);
                Gather(year, days, outcomes);
            }

            return;
        }

        RunOnThreads(days, outcomes, threads);
    }

    private void RunOnThreads(WaterDays days, CandidateOutcomes outcomes, int threads)
    {
        foreach (BalanceLanes lanes in outcomes.Lanes)
        {
            lanes.Reset(StartDepletionMm);
        }

        int length = outcomes.Lanes.Length == 0 ? 0 : outcomes.Lanes[0].DepletionMm.Length;
        int parts = (length + LanesPerPart - 1) / LanesPerPart;
        ParallelOptions options = new() { MaxDegreeOfParallelism = threads };
        Parallel.For(0, years.Length * parts, options, part =>
        {
            int first = part % parts * LanesPerPart;
            RunLanes(part / parts, first, Math.Min(first + LanesPerPart, length), days, outcomes);
        });
        Parallel.For(0, years.Length, options, year => Gather(year, days, outcomes));
    }

    private void RunLanes(int year, int from, int to, WaterDays days, CandidateOutcomes outcomes) =>
        BalanceKernel.Run(root, years[year].WantedMm, years[year].RainInMm, days.Shares[year], outcomes.Lanes[year], from, to);

    private void Gather(int year, WaterDays days, CandidateOutcomes outcomes) =>
        outcomes.Gather(year, root, years[year], days.Shares[year], zone.Emission, StartDepletionMm);
}

/// <summary>The water days of the years of a <see cref="CandidateReplay"/>.</summary>
public sealed class WaterDays
{
    internal WaterDays(double[][] shares) => Shares = shares;

    /// <summary>By year and step, the part of the depth that falls.</summary>
    internal double[][] Shares { get; }
}
