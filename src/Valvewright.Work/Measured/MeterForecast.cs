using NodaTime.Text;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Plans;
using Valvewright.Files.Measured;
using Valvewright.Files.Problems;
using Valvewright.Files.Timelines;

namespace Valvewright.Work.Measured;

/// <summary>A meter's readings against what the timeline should have used.</summary>
/// <param name="Intervals">From reading to reading.</param>
/// <param name="LargestFlowLpm">The largest flow of the supply's zones.</param>
public sealed record MeterForecast(ListOf<MeterInterval> Intervals, double LargestFlowLpm)
{
    private const int MostYears = 10;

    /// <summary>Judges a meter.</summary>
    /// <exception cref="RefusalException">Its readings are too far apart.</exception>
    public static MeterForecast Of(Site site, Plan plan, MeasuredMeter meter)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(meter);
        if (meter.Readings.Count < 2)
        {
            return new MeterForecast([], 0);
        }

        (LocalDate first, LocalDate last) = (meter.Readings[0].On, meter.Readings[^1].On);
        if (last > first.PlusYears(MostYears))
        {
            throw new RefusalException(new Refusal.WrongRequest([new Problem(
                meter.Supply, 0, 0, LocalDatePattern.Iso.Format(first), $"readings within {MostYears} years", null,
                "These readings are too far apart for one timeline")]));
        }

        SiteWaterings waterings = SiteWaterings.Of(site, plan, first.PlusDays(-1), last);
        Watering[] own = [.. waterings.Waterings.Where(w => w.Supply == meter.Supply)];
        double largest = own.Select(w => w.FlowLpm).DefaultIfEmpty(20).Max();
        ListOf<MeterReading> readings = meter.Readings.Select(r => new MeterReading(Noon(site, r.On), r.M3)).ToListOf();
        return new MeterForecast(MeterCheck.Judge(
            readings, (from, to) => Expected(own, from, to), new MeterKnowledge(meter.ResolutionM3, LargestFlowLpm: largest)), largest);
    }

    private static double Expected(Watering[] waterings, Instant from, Instant to) => waterings.Sum(w =>
    {
        double seconds = (Instant.Min(w.Closes, to) - Instant.Max(w.Opens, from)).TotalSeconds;
        return seconds > 0 ? w.FlowLpm * seconds / 60 / 1000 : 0;
    });

    private static Instant Noon(Site site, LocalDate date) => (date + new LocalTime(12, 0)).InZoneLeniently(site.Zone()).ToInstant();
}
