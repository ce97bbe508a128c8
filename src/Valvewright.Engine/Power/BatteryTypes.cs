using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Power;

/// <summary>A kind of battery with typical values. Replace them by the battery maker's data.</summary>
/// <param name="Name">The word for it.</param>
/// <param name="Cells">Cells in series.</param>
/// <param name="CapacityMah">Usable capacity at 20 C and the small loads of a controller.</param>
/// <param name="SelfDischargePerYear">Share lost per year at 20 C.</param>
/// <param name="CellOhms">Inner resistance of one cell at 20 C.</param>
/// <param name="FreshCellVolts">A fresh cell without load.</param>
/// <param name="EmptyCellVolts">A cell that has nothing left for a controller.</param>
/// <param name="ShareAtZeroC">Share of the capacity that can be had at 0 C.</param>
/// <param name="ShareAtMinus20C">Share at -20 C.</param>
/// <param name="LargestCellVolts">More than this no cell of the kind shows.</param>
public sealed record BatteryType(
    string Name, int Cells, double CapacityMah, double SelfDischargePerYear, double CellOhms,
    double FreshCellVolts, double EmptyCellVolts, double ShareAtZeroC, double ShareAtMinus20C, double LargestCellVolts)
{
    /// <summary>Share of the capacity that can be had at a temperature: straight lines through 20, 0 and -20 C.</summary>
    public double ShareAt(double temperatureC) => temperatureC switch
    {
        >= 20 => 1,
        >= 0 => ShareAtZeroC + ((1 - ShareAtZeroC) * temperatureC / 20),
        >= -20 => ShareAtMinus20C + ((ShareAtZeroC - ShareAtMinus20C) * (temperatureC + 20) / 20),
        _ => Math.Max(0, ShareAtMinus20C * (1 - ((-20 - temperatureC) / 20))),
    };

    /// <summary>Inner resistance of the whole battery at a temperature: it doubles with every 20 C below 20 C (rule of thumb).</summary>
    public double OhmsAt(double temperatureC, double cellOhms) => Cells * cellOhms * Math.Pow(2, Math.Max(0, 20 - temperatureC) / 20);
}

/// <summary>Batteries that controllers of this kind use, with typical values.</summary>
/// <remarks>
/// Capacities: 9 V alkaline 500 mAh (components sheets 400 to 600), lithium 1200; AA alkaline 2500 mAh at small loads, measured 2900
/// at 50 mA and 2700 at 100 mA. A 9 V alkaline has 1.7 ohm at 1 kHz; a latching pulse sees more. Shares in the cold, self-discharge and
/// cell volts are rules of thumb: use the battery maker's data.
/// </remarks>
public static class BatteryTypes
{
    /// <summary>All of them.</summary>
    public static ListOf<BatteryType> All { get; } =
    [
        new("9 V alkaline", 6, 500, 0.03, 0.5, 1.6, 1.0, 0.6, 0.25, 1.65),
        new("9 V lithium", 3, 1200, 0.01, 2, 3.2, 2.2, 0.85, 0.6, 3.4),
        new("AA alkaline x 2", 2, 2500, 0.03, 0.2, 1.6, 1.0, 0.6, 0.25, 1.65),
        new("AA alkaline x 4", 4, 2500, 0.03, 0.2, 1.6, 1.0, 0.6, 0.25, 1.65),
        new("AA alkaline x 6", 6, 2500, 0.03, 0.2, 1.6, 1.0, 0.6, 0.25, 1.65),
        new("AA lithium x 4", 4, 3000, 0.01, 0.15, 1.8, 1.1, 0.9, 0.75, 1.85),
        new("C alkaline x 4", 4, 7000, 0.03, 0.15, 1.6, 1.0, 0.6, 0.25, 1.65),
        new("D alkaline x 4", 4, 14000, 0.03, 0.12, 1.6, 1.0, 0.6, 0.25, 1.65),
    ];

    /// <summary>The battery of that name; null where there is none.</summary>
    public static BatteryType? Named(string name) =>
        All.FirstOrDefault(b => string.Equals(b.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Why a reading of volts cannot be; null where it can.</summary>
    public static Sentence? Doubt(BatteryType battery, double volts)
    {
        ArgumentNullException.ThrowIfNull(battery);
        double most = battery.Cells * battery.LargestCellVolts;
        if (volts < 0) return "The meter's leads are swapped";
        return volts > most
            ? (Sentence)$"A fresh {(Sentence)battery.Name} shows {most:0.0} V at most; check the battery type, the meter's range and whether two packs are in series"
            : null;
    }
}
