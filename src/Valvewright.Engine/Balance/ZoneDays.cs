using NodaTime;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>The days of a climate as a zone feels them: worked out once, read by every replay.</summary>
/// <remarks>
/// The balance moves in steps of a day, or of an hour for seedbeds; series hold one value per step. Where the climate has days before it,
/// the first
/// <see cref="Lead"/> steps are theirs: they set the soil's store and count for nothing else. docs/balance.md has the order of a day.
/// </remarks>
public sealed class ZoneDays
{
    /// <summary>What leaves of a full cover hold, mm (0.5 to 4 in the sources; docs/balance.md).</summary>
    public const double LeafStoreMm = 1;

    /// <summary>Rain below this part of the day's ETo evaporates where it falls (FAO-56 chapter 7 ignores such wettings).</summary>
    private const double LeastRainOfEto = 0.2;

    private ZoneDays(Climate climate, int stepsPerDay, int lead)
    {
        (Climate, StepsPerDay, Lead) = (climate, stepsPerDay, lead);
        int steps = lead + (climate.Days * stepsPerDay);
        (WantedMm, RootUseMm, RainInMm, LeafRoomMm, ReadilyMm, Slope) =
            (new double[steps], new double[steps], new double[steps], new double[steps], new double[steps], new double[steps]);
    }

    /// <summary>The weather behind it.</summary>
    public Climate Climate { get; }

    /// <summary>1, or 24 for hourly steps.</summary>
    public int StepsPerDay { get; }

    /// <summary>Steps before the first day of the climate.</summary>
    public int Lead { get; }

    /// <summary>What the plants use when they lack nothing, KL x ETo, by step, mm.</summary>
    public double[] WantedMm { get; }

    /// <summary>What of it is left for the roots to supply when rain on leaves has evaporated, by step, mm.</summary>
    public double[] RootUseMm { get; }

    /// <summary>Rain that sinks in, by step, mm.</summary>
    public double[] RainInMm { get; }

    /// <summary>What leaves can still hold of overhead water, by step, mm; 0 for drip and bubblers.</summary>
    public double[] LeafRoomMm { get; }

    /// <summary>RAW, by step, mm.</summary>
    public double[] ReadilyMm { get; }

    /// <summary>Slope of Ks, 1 / (TAW - RAW), by step, 1/mm.</summary>
    public double[] Slope { get; }

    /// <summary>How many days the climate has.</summary>
    public int Days => Climate.Days;

    /// <summary>How many steps, those before the first day included.</summary>
    public int Steps => WantedMm.Length;

    /// <summary>Demand of the climate's own days, mm.</summary>
    public double DemandMm => Sum(WantedMm);

    /// <summary>Sum over the climate's own days.</summary>
    public double Sum(ReadOnlySpan<double> bySteps)
    {
        double sum = 0;
        for (int step = Lead; step < bySteps.Length; step++)
        {
            sum += bySteps[step];
        }

        return sum;
    }

    /// <summary>The day of the climate that a step belongs to; negative before the first.</summary>
    public int DayOf(int step) => StepsPerDay == 1 ? step - Lead : step / StepsPerDay;

    /// <summary>The date of a step.</summary>
    public LocalDate DateOf(int step) => Climate.DateOf(DayOf(step));

    /// <summary>The days of a climate as a zone feels them.</summary>
    public static ZoneDays Of(Zone zone, Climate climate)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Of(zone, climate, RainRunoff.Of(zone));
    }

    /// <summary>The same with the runoff of rain given, and what leaves of a full cover hold, mm.</summary>
    public static ZoneDays Of(Zone zone, Climate climate, RainRunoff runoff, double leafStoreMm = LeafStoreMm)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(climate);
        Climate all = climate.WithBefore();
        ZoneDays days = new(climate, stepsPerDay: 1, all.Days - climate.Days);
        double[] coefficient = Growth.CoefficientsOf(zone.Planting, all);
        SnowCover snow = SnowCover.Of(all);
        RootZone root = RootZone.Of(zone);
        double sun = 1 - zone.ShadeFraction, leaves = zone.Planting.Stage == PlantStage.NewlySeeded ? 0 : leafStoreMm;
        for (int day = 0; day < days.Steps; day++)
        {
            double wanted = snow.Rests[day] ? 0 : coefficient[day] * sun * all.EtoMm[day];
            double rain = snow.LiquidMm[day] < LeastRainOfEto * all.EtoMm[day] ? 0 : snow.LiquidMm[day];
            double reaching = rain - runoff.DepthMm(rain), onLeaves = Math.Min(leaves, reaching);
            days.Set(day, root, wanted, wanted - Math.Min(wanted, onLeaves), reaching - onLeaves,
                zone.Emission.IsOverhead ? leaves - onLeaves : 0, root.ReadilyMmAt(wanted));
        }

        return days;
    }

    /// <summary>The same in hours, for a seedbed: use follows the daylight, rain falls evenly over its day, allowed depletion stays as
    /// given.</summary>
    /// <param name="root">The seedbed's root zone.</param>
    /// <param name="fill">Fills the shares of a date's use that fall in each hour.</param>
    internal ZoneDays ByHour(RootZone root, int hours, Action<LocalDate, double[]> fill)
    {
        ZoneDays byHour = new(Climate, hours, 0);
        double[] shares = new double[hours];
        for (int day = 0; day < Days; day++)
        {
            fill(Climate.DateOf(day), shares);
            for (int hour = 0; hour < hours; hour++)
            {
                double wanted = WantedMm[Lead + day] * shares[hour];
                byHour.Set((day * hours) + hour, root, wanted, wanted, RainInMm[Lead + day] / hours, 0, root.ReadilyMm);
            }
        }

        return byHour;
    }

    private void Set(int step, RootZone root, double wantedMm, double rootUseMm, double rainInMm, double leafRoomMm, double readilyMm)
    {
        WantedMm[step] = wantedMm;
        RootUseMm[step] = rootUseMm;
        RainInMm[step] = rainInMm;
        LeafRoomMm[step] = leafRoomMm;
        ReadilyMm[step] = readilyMm;
        Slope[step] = root.SlopeFrom(readilyMm);
    }
}
