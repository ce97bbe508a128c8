using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.Visits;

/// <summary>A visit as it is being written down: text as typed, so that nothing half typed is lost.</summary>
/// <param name="Id">The visit's id.</param>
public sealed record VisitDraft(Guid Id)
{
    /// <summary>The version that a correction rests on; null for a new visit.</summary>
    public string? Version { get; init; }

    /// <summary>Whether it corrects a visit that is recorded already.</summary>
    public bool IsCorrection { get; init; }

    /// <summary>The controller's name; empty until chosen.</summary>
    public string Controller { get; init; } = "";

    /// <summary>Date at the site, as a date field gives it.</summary>
    public string Date { get; init; } = "";

    /// <summary>Time of day at the site, as a time field gives it.</summary>
    public string Time { get; init; } = "";

    /// <summary>What was read before anything was touched.</summary>
    public string AsFound { get; init; } = "";

    /// <summary>What was left.</summary>
    public string AsLeft { get; init; } = "";

    /// <summary>Whether the person has touched what was left; until then it follows the card.</summary>
    public bool IsLeftTouched { get; init; }

    /// <summary>Battery, V.</summary>
    public string Battery { get; init; } = "";

    /// <summary>Cells of the battery pack.</summary>
    public int Cells { get; init; } = 6;

    /// <summary>Coils, by station.</summary>
    public ListOf<CoilText> Coils { get; init; } = [];

    /// <summary>Water meter.</summary>
    public string Meter { get; init; } = "";

    /// <summary>Anything else.</summary>
    public string Notes { get; init; } = "";

    /// <summary>Photos taken, whose bytes lie in the device's store of photos.</summary>
    public ListOf<DraftPhoto> Photos { get; init; } = [];

    /// <summary>When it was last written to.</summary>
    public Instant At { get; init; }

    /// <summary>The text of a coil; empty where none was typed.</summary>
    public string CoilOf(int station) => Coils.FirstOrDefault(c => c.Station == station)?.Text ?? "";

    /// <summary>The same with the text of one coil.</summary>
    public VisitDraft WithCoil(int station, string text) =>
        this with { Coils = Coils.Where(c => c.Station != station).Append(new CoilText(station, text)).OrderBy(c => c.Station).ToListOf() };

    /// <summary>A draft that says what a recorded visit says.</summary>
    public static VisitDraft Of(Guid id, string? version, VisitValue visit)
    {
        return new VisitDraft(id)
        {
            Version = version, IsCorrection = true, Controller = visit.Controller, Date = visit.At.Date.ToString("uuuu-MM-dd", null),
                Time = visit.At.ToString("HH:mm", null),
            AsFound = visit.AsFound, AsLeft = visit.AsLeft, IsLeftTouched = true, Battery = Plain(visit.BatteryVolts),
            Coils = visit.CoilOhms.Select(c => new CoilText(c.Station, c.Ohms >= VisitEntry.OpenOhms ? "OL" : Plain(c.Ohms))).ToListOf(),
                Meter = visit.MeterM3 is null ? "" : $"{Plain(visit.MeterM3)} m3", Notes = visit.Notes,
        };
    }

    private static string Plain(double? number) => number?.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture) ?? "";
}

/// <summary>A coil's resistance as typed.</summary>
/// <param name="Station">Station.</param>
/// <param name="Text">Ohms, or that the meter shows none.</param>
public sealed record CoilText(int Station, string Text);

/// <summary>A photo of a draft.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Type">Media type.</param>
/// <param name="Bytes">How many bytes it has.</param>
public sealed record DraftPhoto(Guid Id, string Type, int Bytes);
