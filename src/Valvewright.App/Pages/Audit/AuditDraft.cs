using System.Globalization;
using Valvewright.Engine.Audit;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Values;

namespace Valvewright.App.Pages.Audit;

/// <summary>A catch-can test as far as it was written down, as it lies on the device.</summary>
public sealed record AuditDraft
{
    private const int Fewest = 4;
    private const double LargestReading = 20_000;

    /// <summary>The controller.</summary>
    public string Controller { get; init; } = "";

    /// <summary>The station that waters the zone.</summary>
    public int Station { get; init; }

    /// <summary>How long it ran, as typed.</summary>
    public string Minutes { get; init; } = "";

    /// <summary>The opening of a can, as typed.</summary>
    public string Opening { get; init; } = "";

    /// <summary>What the cans caught, mL, in order.</summary>
    public ListOf<double> Cans { get; init; } = [];

    /// <summary>Cans in a row; empty where they stood anyhow.</summary>
    public string Columns { get; init; } = "";

    /// <summary>Distance of the cans, as typed.</summary>
    public string Spacing { get; init; } = "";

    /// <summary>Wind, as typed.</summary>
    public string Wind { get; init; } = "";

    /// <summary>What went through the water meter, as typed.</summary>
    public string Meter { get; init; } = "";

    /// <summary>Whether doubtful readings are used all the same.</summary>
    public bool IsConfirmed { get; init; }

    /// <summary>The test; null while something is missing.</summary>
    public CatchCans? Test =>
        Value(Minutes, Dimension.Duration, Units.Minute) is > 0 and var seconds
            && Value(Opening, Dimension.Area, Units.SquareCentimetre) is > 0 and var openingM2
        && Cans.Count >= Fewest && Cans.Any(c => c > 0)
            ? CatchCans.OfLitres(Cans.Select(c => c / 1000).ToListOf(), seconds / 60, openingM2)
            : null;

    /// <summary>Where the cans stood; empty where that was not said, or the rows are not whole.</summary>
    public ListOf<CanPlace> Places(UnitSystem units) =>
        int.TryParse(Columns, CultureInfo.InvariantCulture, out int columns) && columns > 1 && Cans.Count % columns == 0
            && Cans.Count > columns
        && Value(Spacing, Dimension.Length, units == UnitSystem.UsCustomary ? Units.Foot : Units.Metre) is > 0 and var meters
            ? Cans.Select((_, i) => new CanPlace(i % columns * meters, i / columns * meters)).ToListOf()
            : [];

    /// <summary>Wind, m/s; null where not said.</summary>
    public double? WindMps(UnitSystem units) =>
        Value(Wind, Dimension.Speed, units == UnitSystem.UsCustomary ? Units.Named("mph")! : Units.Named("km/h")!);

    /// <summary>Liters through the meter; null where not said.</summary>
    public double? MeterL(UnitSystem units) =>
        Value(Meter, Dimension.Volume, units == UnitSystem.UsCustomary ? Units.Named("gal")! : Units.Named("L")!);

    /// <summary>A reading as typed, mL; null where it is none.</summary>
    public static double? Reading(string typed) =>
        double.TryParse(typed.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && value <= LargestReading ? value : null;

    private static double? Value(string typed, Dimension dimension, Unit usual) =>
        typed.Trim().Length > 0 && QuantityText.Read(typed, dimension, usual) is { IsRead: true } reading ? reading.Value : null;
}
