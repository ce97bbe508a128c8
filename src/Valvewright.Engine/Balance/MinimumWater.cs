using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>
/// Minimum water: what a person who knows the weather to come, and can water an evenly watered zone by any amount on any day, applies so
/// that no day (a seedbed: no hour) begins past allowed depletion. The ruler that plans are measured with.
/// </summary>
/// <remarks>
/// Water as late as possible and as little as possible: only when a step would end past what the next allows, and just enough to end it
/// there. Up to every day its total is the least of all schedules that leave no use unmet; docs/balance.md has the proof.
/// </remarks>
public sealed class MinimumWater
{
    private readonly ZoneDays days;

    private MinimumWater(ZoneDays days, double[] netByDayMm, double reaching) =>
        (this.days, NetByDayMm, Reaching) = (days, netByDayMm, reaching);

    /// <summary>Net irrigation by day: what must reach the ground, mm.</summary>
    public double[] NetByDayMm { get; }

    /// <summary>The part of what is applied that reaches the ground.</summary>
    public double Reaching { get; }

    /// <summary>Net irrigation of all days, mm: the net requirement.</summary>
    public double NetMm => NetByDayMm.Sum();

    /// <summary>Gross irrigation of all days, mm.</summary>
    public double GrossMm => NetMm / Reaching;

    /// <summary>The minimum water of a zone.</summary>
    public static MinimumWater Of(Zone zone, Climate climate) => Of(zone, ZoneDays.Of(zone, climate));

    /// <summary>The same for days, or hours, worked out before.</summary>
    public static MinimumWater Of(Zone zone, ZoneDays days)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(days);
        RootZone root = RootZone.Of(zone);
        double depletion = 0;
        double[] byDay = new double[days.Days];
        for (int step = 0; step < days.Steps; step++)
        {
            double allowed = days.ReadilyMm[Math.Min(step + 1, days.Steps - 1)];
            double use = days.RootUseMm[step], leaf = days.LeafRoomMm[step];
            double dry = depletion + use - days.RainInMm[step];
            double needed = Math.Max(0, dry - allowed);

            // Where the need is beyond the day's use, leaves keep what evaporation does not take.
            double net = needed > use && leaf > use ? needed + (leaf - use) : needed;
            depletion = Math.Clamp(dry - needed, 0, root.TotalMm);
            if (step >= days.Lead)
            {
                byDay[days.DayOf(step)] += net;
            }
        }

        return new MinimumWater(days, byDay, (1 - zone.Emission.ApplicationLossFraction) * (1 - zone.LeachingFraction));
    }

    /// <summary>Net totals of the twelve months, mm, January first.</summary>
    public double[] NetByMonthMm()
    {
        double[] months = new double[12];
        for (int day = 0; day < NetByDayMm.Length; day++)
        {
            months[days.Climate.DateOf(day).Month - 1] += NetByDayMm[day];
        }

        return months;
    }
}
