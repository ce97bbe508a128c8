using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>The days of a climate as a zone feels them: worked out once, read by every replay.</summary>
/// <remarks>The balance moves in steps of a day, or of an hour for seedbeds; series hold one value a step.</remarks>
public sealed class ZoneDays
{
    internal ZoneDays(Climate climate, int stepsPerDay, double[] wantedMm, double[] rainInMm)
    {
        Climate = climate;
        StepsPerDay = stepsPerDay;
        WantedMm = wantedMm;
        RainInMm = rainInMm;
    }

    /// <summary>The weather behind it.</summary>
    public Climate Climate { get; }

    /// <summary>1, or 24 for hourly steps.</summary>
    public int StepsPerDay { get; }

    /// <summary>What the plants use when they lack nothing, KL x ETo, by step, mm.</summary>
    public double[] WantedMm { get; }

    /// <summary>Rain that sinks in, by step, mm.</summary>
    public double[] RainInMm { get; }

    /// <summary>How many days.</summary>
    public int Days => Climate.Days;

    /// <summary>How many steps.</summary>
    public int Steps => WantedMm.Length;

    /// <summary>The day that a step belongs to.</summary>
    public int DayOf(int step) => step / StepsPerDay;

    /// <summary>The days of a climate as a zone feels them.</summary>
    public static ZoneDays Of(Zone zone, Climate climate)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Of(zone, climate, RainRunoff.Of(zone));
    }

    /// <summary>The same with the runoff of rain given.</summary>
    public static ZoneDays Of(Zone zone, Climate climate, RainRunoff runoff)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(climate);
        double[] wanted = new double[climate.Days];
        double[] rain = new double[climate.Days];
        for (int day = 0; day < wanted.Length; day++)
        {
            wanted[day] = zone.Planting.CoefficientIn(climate.DateOf(day).Month) * climate.EtoMm[day];
            rain[day] = climate.RainMm[day] - runoff.DepthMm(climate.RainMm[day]);
        }

        return new ZoneDays(climate, stepsPerDay: 1, wanted, rain);
    }
}
