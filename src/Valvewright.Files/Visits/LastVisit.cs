using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Files.Visits;

/// <summary>How measured values are judged: a rule of thumb of the trade, which the survey has no figures for.</summary>
/// <param name="MostCellVolts">No cell shows more, V.</param>
/// <param name="FreshCellVolts">From here on a cell is as new, V.</param>
/// <param name="LeastCellVolts">Below, a cell is changed, V.</param>
/// <param name="UsualCells">Cells of a pack of which nothing is known.</param>
/// <param name="ShortOhms">Below, a coil is shorted, ohm.</param>
/// <param name="LeastOhms">The least of a usual coil, ohm.</param>
/// <param name="MostOhms">The most of a usual coil, ohm.</param>
/// <param name="OpenOhms">From here on there is no way through, ohm.</param>
public sealed record MeasuredLimits(
    double MostCellVolts, double FreshCellVolts, double LeastCellVolts, int UsualCells, double ShortOhms, double LeastOhms, double MostOhms,
        double OpenOhms);

/// <summary>What the last visits to a controller left and measured.</summary>
/// <param name="At">Site time of the last one.</param>
/// <param name="AsLeft">What it left, in quick form.</param>
/// <param name="Cells">Cells of the battery pack.</param>
public sealed record LastVisit(LocalDateTime At, string AsLeft, int Cells)
{
    /// <summary>Battery, V, and when it was measured last.</summary>
    public (double Volts, LocalDate On)? Battery { get; init; }

    /// <summary>Water meter, m3, and when it was read last.</summary>
    public (double M3, LocalDate On)? Meter { get; init; }

    /// <summary>Coils by station, ohm, as measured last.</summary>
    public ListOf<(int Station, double Ohms, LocalDate On)> Coils { get; init; } = [];

    /// <summary>What visits to one controller, the latest first, left and measured last.</summary>
    public static LastVisit Of(IReadOnlyList<VisitMade> visits, int cells)
    {
        ArgumentNullException.ThrowIfNull(visits);
        return new LastVisit(visits[0].At, visits[0].AsLeft, cells)
        {
            Battery = visits.Where(v => v.Volts is not null).Select(v => ((double, LocalDate)?)(v.Volts!.Value, v.At.Date))
                .FirstOrDefault(),
            Meter = visits.Where(v => v.MeterM3 is not null).Select(v => ((double, LocalDate)?)(v.MeterM3!.Value, v.At.Date))
                .FirstOrDefault(),
            Coils = visits.SelectMany(v => v.Coils.Select(c => (c.Station, c.Ohms, v.At.Date))).DistinctBy(c => c.Station)
                .OrderBy(c => c.Station).ToListOf(),
        };
    }
}

/// <summary>A visit as it was recorded.</summary>
/// <param name="At">Site time.</param>
/// <param name="AsLeft">What it left, in quick form.</param>
/// <param name="Volts">Battery, V.</param>
/// <param name="MeterM3">Water meter, m3.</param>
/// <param name="Coils">Coils, ohm.</param>
public sealed record VisitMade(LocalDateTime At, string AsLeft, double? Volts, double? MeterM3, ListOf<(int Station, double Ohms)> Coils);
