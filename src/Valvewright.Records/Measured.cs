namespace Valvewright.Records;

/// <summary>What a measured value says about a battery.</summary>
public enum BatteryState
{
    /// <summary>As new.</summary>
    Fresh,

    /// <summary>It serves; look again at the next visit.</summary>
    Serves,

    /// <summary>Change it now: it may not last until the next visit.</summary>
    Change,

    /// <summary>More than such a pack can give: another pack, or a wrong reading.</summary>
    TooHigh,
}

/// <summary>What a measured value says about a coil.</summary>
public enum CoilState
{
    /// <summary>As usual.</summary>
    Usual,

    /// <summary>Hardly any resistance: shorted coil or wires that touch.</summary>
    Shorted,

    /// <summary>More than usual: a bad splice, a long thin wire, or a coil of another kind.</summary>
    High,

    /// <summary>No way through: a broken wire or coil.</summary>
    Open,

    /// <summary>Within the usual, but far from the others of this controller.</summary>
    UnlikeOthers,
}

/// <summary>Judges batteries and coils by common practice; the survey holds no figures of them.</summary>
/// <remarks>
/// Volts a cell of alkaline batteries under a light load, not checked against the printed source of published discharge curves: a new cell
/// has some 1.55 to 1.65 V, half its charge is gone at some 1.25 V, and it is called empty at 0.9 to 1.0 V. A latching pulse draws hard and
/// sags an old pack, and the next visit may be months away: hence 1.3 V as the least to leave behind. Ohms of two-wire latching coils for 9
/// V controllers, common practice not checked against the printed source: 3 to 12 ohm; coils for 24 V alternating current show 20 to 60.
/// </remarks>
public static class Measured
{
    /// <summary>A cell of at least so many volts is as new, V.</summary>
    public const double FreshCellVolts = 1.5;

    /// <summary>A cell of at least so many volts may stay, V.</summary>
    public const double LeastCellVolts = 1.3;

    /// <summary>No alkaline cell shows more, V.</summary>
    public const double MostCellVolts = 1.7;

    /// <summary>Usual range of a two-wire latching coil, ohm.</summary>
    public static (double Least, double Most) UsualOhms => (3, 12);

    /// <summary>Below this, ohm, the coil is shorted.</summary>
    public const double ShortOhms = 1.5;

    /// <summary>Above this, ohm, there is no way through.</summary>
    public const double OpenFromOhms = 1000;

    /// <summary>So much, as a share, apart from the middle one of the controller's coils is worth a look.</summary>
    public const double ShareApart = 0.4;

    /// <summary>Packs to choose from, by their number of cells of 1.5 V.</summary>
    public static IReadOnlyList<int> Packs { get; } = [2, 4, 6, 12];

    /// <summary>What a battery's voltage says.</summary>
    public static BatteryState OfBattery(double volts, int cells) => (volts / cells) switch
    {
        > MostCellVolts => BatteryState.TooHigh,
        >= FreshCellVolts => BatteryState.Fresh,
        >= LeastCellVolts => BatteryState.Serves,
        _ => BatteryState.Change,
    };

    /// <summary>What a coil's resistance says, beside the others of the same controller.</summary>
    public static CoilState OfCoil(double ohms, IReadOnlyList<double> others)
    {
        ArgumentNullException.ThrowIfNull(others);
        if (ohms < ShortOhms)
        {
            return CoilState.Shorted;
        }

        if (ohms >= OpenFromOhms)
        {
            return CoilState.Open;
        }

        if (ohms > UsualOhms.Most || ohms < UsualOhms.Least)
        {
            return ohms > UsualOhms.Most ? CoilState.High : CoilState.Shorted;
        }

        double[] rising = [.. others.Where(o => o >= UsualOhms.Least && o <= UsualOhms.Most).Order()];
        double middle = rising.Length == 0 ? ohms : rising[rising.Length / 2];
        return Math.Abs(ohms - middle) > ShareApart * middle ? CoilState.UnlikeOthers : CoilState.Usual;
    }

    /// <summary>Cells of a pack of which nothing is known: 9 V.</summary>
    public const int UsualCells = 6;

    /// <summary>Cells of the pack that was likeliest measured before: the smallest that can show the highest voltage of the last visits;
    /// six (9 V) without any.</summary>
    public static int CellsOf(IEnumerable<VisitValue> visits)
    {
        double highest = visits.Select(v => v.BatteryVolts ?? 0).DefaultIfEmpty(0).Max();
        return highest <= 0 ? UsualCells : Packs.FirstOrDefault(c => highest <= c * MostCellVolts, Packs[^1]);
    }
}
