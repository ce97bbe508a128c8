using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>The days of a climate as a zone feels them: worked out once, read by every replay.</summary>
public sealed class ZoneDays
{
    private ZoneDays(Climate climate, double[] wantedMm, double[] rainInMm)
    {
        Climate = climate;
        WantedMm = wantedMm;
        RainInMm = rainInMm;
    }

    /// <summary>The weather behind it.</summary>
    public Climate Climate { get; }

    /// <summary>What the plants use when they lack nothing, KL x ETo, by day, mm.</summary>
    public double[] WantedMm { get; }

    /// <summary>Rain that sinks in, by day, mm.</summary>
    public double[] RainInMm { get; }

    /// <summary>How many days.</summary>
    public int Days => WantedMm.Length;

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

        return new ZoneDays(climate, wanted, rain);
    }
}
