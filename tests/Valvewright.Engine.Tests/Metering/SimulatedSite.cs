using NodaTime;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Metering;

/// <summary>Ten invented years of a site with a meter: a plan for the whole year, flows that the survey does not know exactly, visits,
/// faults.</summary>
internal sealed class SimulatedSite
{
    private const int Days = 3652;
    private static readonly LocalDate First = new(2021, 1, 1);

    private readonly SeededDraws draws;
    private readonly double[] flowsLpm;
    private readonly double[] truth;
    private readonly double[][] minutes;
    private readonly double[] throughMeter = new double[Days];

    /// <param name="seed">Its number.</param>
    /// <param name="daysBetweenVisits">Days between readings.</param>
    internal SimulatedSite(int seed, int daysBetweenVisits)
    {
        draws = new SeededDraws((ulong)seed);
        int zones = 2 + draws.Below(5);
        flowsLpm = [.. Enumerable.Range(0, zones).Select(_ => 8 + (32 * draws.Unit()))];

        // The survey's flows are off by 5% each, and the meter by 1.5% throughout.
        double meter = 1 + (0.015 * draws.Normal());
        truth = [.. flowsLpm.Select(flow => flow * meter * (1 + (0.05 * draws.Normal())))];
        int[] every = [.. flowsLpm.Select(_ => 1 + draws.Below(4))];
        double[] run = [.. flowsLpm.Select(_ => 8 + (25 * draws.Unit()))];
        minutes = [.. Enumerable.Range(0, Days)
            .Select(day => flowsLpm.Select((_, zone) => day % every[zone] == 0 ? run[zone] * Percent(First.PlusDays(day)) : 0).ToArray())];
        for (int day = 0; day < Days; day++)
        {
            // Pressure differs from day to day by 3%, and by 1% from month to month.
            double pressure = (1 + (0.03 * draws.Normal())) * (1 + (0.01 * Math.Sin(day / 58.0)));
            throughMeter[day] = truth.Select((flow, zone) => flow * minutes[day][zone] * pressure).Sum() / 1000;
        }

        Visits = Enumerable.Range(0, 1 + ((Days - 1) / daysBetweenVisits)).Select(i => i * daysBetweenVisits).ToListOf();
    }

    internal ListOf<int> Visits { get; }

    internal SeededDraws Draws => draws;

    internal double FlowLpm(int zone) => truth[zone];

    internal int Zones => flowsLpm.Length;

    internal Instant At(int day) => First.PlusDays(day).AtMidnight().InUtc().ToInstant();

    /// <summary>Water beyond the plan on a day.</summary>
    internal void Add(int day, double m3) => throughMeter[day] += m3;

    internal double Minutes(int day, int zone) => minutes[day][zone];

    internal static int DayCount => Days;

    /// <summary>What is read off at the visits, to 10 L.</summary>
    internal ListOf<MeterReading> Readings()
    {
        double[] total = new double[Days + 1];
        for (int day = 0; day < Days; day++) total[day + 1] = total[day] + throughMeter[day];
        return Visits.Select(day => new MeterReading(At(day), Math.Round(1234.56 + total[day], 2))).ToListOf();
    }

    internal double ExpectedM3(Instant from, Instant to)
    {
        int first = (int)(from - At(0)).TotalDays, end = (int)(to - At(0)).TotalDays;
        double sum = 0;
        for (int day = first; day < end; day++) sum += flowsLpm.Select((flow, zone) => flow * minutes[day][zone]).Sum() / 1000;
        return sum;
    }

    internal ListOf<MeterInterval> Judge(ListOf<MeterReading> readings) =>
        MeterCheck.Judge(readings, ExpectedM3, new MeterKnowledge(LargestFlowLpm: flowsLpm.Max()));

    /// <summary>Off in winter, percent by season.</summary>
    private static double Percent(LocalDate date) => date.Month switch { 4 or 10 => 0.4, 5 or 9 => 0.7, 6 or 7 or 8 => 1, _ => 0 };
}
