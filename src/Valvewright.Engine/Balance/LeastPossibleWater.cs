using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>
/// What somebody who knows the future, and can water any amount on any day, applies so that no spot ever ends a day (a
/// seedbed: an hour) past allowed depletion. No plan can use less without stress; it is the ruler that plans are measured with.
/// </summary>
/// <remarks>
/// Water as late as possible and as little as possible: only when some spot would end the day past RAW, and just enough for the driest
/// one to end it at RAW. Up to every day its total is the least of all schedules without stress; docs/balance.md has the proof.
/// </remarks>
public sealed class LeastPossibleWater
{
    private readonly Climate climate;

    private LeastPossibleWater(Climate climate, double[] byDayMm, double driestEndMm, double unreachedWeight)
    {
        this.climate = climate;
        ByDayMm = byDayMm;
        DriestEndMm = driestEndMm;
        UnreachedWeight = unreachedWeight;
    }

    /// <summary>Gross irrigation by day, mean over the zone, mm.</summary>
    public double[] ByDayMm { get; }

    /// <summary>Depletion of the driest spot that water reaches at the end of the last day, mm.</summary>
    public double DriestEndMm { get; }

    /// <summary>The part of the zone's area that no water reaches at all; no schedule can keep it, so it is left out.</summary>
    public double UnreachedWeight { get; }

    /// <summary>Gross irrigation of all days, mm.</summary>
    public double TotalMm => ByDayMm.Sum();

    /// <summary>The least possible water of a zone whose spots start at field capacity.</summary>
    public static LeastPossibleWater Of(Zone zone, Climate climate) => Of(zone, ZoneDays.Of(zone, climate));

    /// <summary>The same for days, or hours, worked out before.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="days">Its days or hours.</param>
    /// <param name="startDepletionMm">Depletion of every spot before the first step, 0 to RAW.</param>
    public static LeastPossibleWater Of(Zone zone, ZoneDays days, double startDepletionMm = 0)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(days);
        RootZone root = RootZone.Of(zone);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(startDepletionMm, root.ReadilyMm);
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        ReadOnlySpan<double> share = zone.Emission.Spots.Share.AsSpan();
        double[] depletion = new double[share.Length];
        Array.Fill(depletion, startDepletionMm);
        double[] byDay = new double[days.Days];
        for (int step = 0; step < days.Steps; step++)
        {
            double gross = 0;
            for (int spot = 0; spot < share.Length; spot++)
            {
                depletion[spot] += days.WantedMm[step] - days.RainInMm[step];
                if (share[spot] * reaching > 0)
                {
                    gross = Math.Max(gross, (depletion[spot] - root.ReadilyMm) / (share[spot] * reaching));
                }
            }

            for (int spot = 0; spot < share.Length; spot++)
            {
                depletion[spot] = Math.Clamp(depletion[spot] - gross * (share[spot] * reaching), 0, root.TotalMm);
            }

            byDay[days.DayOf(step)] += gross;
        }

        double unreached = 0, driest = 0;
        for (int spot = 0; spot < share.Length; spot++)
        {
            bool reached = share[spot] * reaching > 0;
            unreached += reached ? 0 : zone.Emission.Spots.Weight[spot];
            driest = Math.Max(driest, reached ? depletion[spot] : 0);
        }

        return new LeastPossibleWater(days.Climate, byDay, driest, unreached);
    }

    /// <summary>Totals of years that begin on a date of the year, mm, by rising year; the first and last may be incomplete.</summary>
    public IReadOnlyList<YearTotal> ByYear(AnnualDate begins)
    {
        List<YearTotal> totals = [];
        for (int day = 0; day < ByDayMm.Length; day++)
        {
            LocalDate date = climate.DateOf(day);
            int year = date < begins.InYear(date.Year) ? date.Year - 1 : date.Year;
            if (totals.Count == 0 || totals[^1].Year != year)
            {
                totals.Add(new YearTotal(year, 0, 0));
            }

            totals[^1] = totals[^1] with { Days = totals[^1].Days + 1, Mm = totals[^1].Mm + ByDayMm[day] };
        }

        return totals;
    }
}

/// <summary>Water of one year.</summary>
/// <param name="Year">The calendar year in which it begins.</param>
/// <param name="Days">Days of it that the record holds.</param>
/// <param name="Mm">Gross irrigation, mm.</param>
public readonly record struct YearTotal(int Year, int Days, double Mm);
