using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Power;

/// <summary>Volts read off a battery, best under a small load, and what they say.</summary>
/// <param name="Battery">The kind of battery.</param>
/// <param name="Volts">The meter.</param>
/// <param name="LoadMilliamps">Load while reading; 0 without.</param>
/// <param name="TemperatureC">Temperature of the battery.</param>
public sealed record BatteryReading(BatteryType Battery, double Volts, double LoadMilliamps = 0, double TemperatureC = 20)
{
    /// <summary>Volts of one alkaline cell at rest over what is left, falling; a rule of thumb, good to 15 points.</summary>
    private static readonly (double Volts, double Left)[] Alkaline =
        [(1.60, 1), (1.55, 0.95), (1.50, 0.85), (1.40, 0.65), (1.30, 0.45), (1.20, 0.25), (1.10, 0.10), (1.00, 0)];

    private bool IsAlkaline => Battery.Name.Contains("alkaline", StringComparison.Ordinal);

    /// <summary>What is left, 0 to 1, with how far it may be off. Lithium holds its volts to the end, so they say little.</summary>
    public UncertainInput Left
    {
        get
        {
            double rest = Volts + (LoadMilliamps / 1000 * Battery.OhmsAt(TemperatureC, Battery.CellOhms));
            double cell = rest / Battery.Cells;
            if (!IsAlkaline)
            {
                double share = cell >= 0.93 * Battery.FreshCellVolts ? 0.6 : cell > Battery.EmptyCellVolts ? 0.15 : 0;
                return new UncertainInput(
                    "what the battery has left", share, 0.6, true, "a lithium battery keeps its volts until it is nearly empty");
            }

            double left = Between(cell);
            double off = left <= 0 ? 0 : Math.Min(0.9, (LoadMilliamps > 0 ? 0.15 : 0.25) / left);
            return new UncertainInput("what the battery has left", left, off, true, LoadMilliamps > 0 ? "volts under load, rule of thumb"
                : "volts without load, rule of thumb; read it under load");
        }
    }

    /// <summary>Why the reading is doubted; nothing where it can be.</summary>
    public ListOf<DoubtfulReading> Doubts =>
        BatteryTypes.Doubt(Battery, Volts) is { } why ? [new DoubtfulReading("battery/volts", $"{Volts} V", why)] : [];

    private static double Between(double cell)
    {
        if (cell >= Alkaline[0].Volts) return 1;
        for (int i = 1; i < Alkaline.Length; i++)
        {
            if (cell < Alkaline[i].Volts) continue;
            double share = (cell - Alkaline[i].Volts) / (Alkaline[i - 1].Volts - Alkaline[i].Volts);
            return Alkaline[i].Left + (share * (Alkaline[i - 1].Left - Alkaline[i].Left));
        }

        return 0;
    }
}
