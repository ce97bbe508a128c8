using System.Text.Json.Serialization;
using Valvewright.Engine.Faults;

namespace Valvewright.Records;

/// <summary>What a site's record says.</summary>
/// <param name="Name">The name in the survey.</param>
/// <param name="Survey">The survey as a person wrote it.</param>
/// <param name="Digest">Digest of what the survey says; comments and layout do not count.</param>
public sealed record SiteValue(string Name, string Survey, string Digest);

/// <summary>The daily weather that a site's survey names as a file.</summary>
/// <param name="Name">The file's name, without a folder.</param>
/// <param name="Blob">Digest of its bytes.</param>
/// <param name="Bytes">How many there are.</param>
public sealed record WeatherValue(string Name, string Blob, long Bytes);

/// <summary>A plan as saved.</summary>
/// <param name="Survey">Digest of the survey that it was made for.</param>
/// <param name="From">The first date on which it is in force.</param>
/// <param name="Plan">The text of the plan's file.</param>
/// <param name="Proof">The text of its proof; null where there is none.</param>
/// <param name="Season">The text of its season (<see cref="Jobs.SeasonKept"/>); null where its visits were not found by one.</param>
public sealed record PlanValue(
    string Survey, LocalDate From, string Plan, string? Proof = null,
        [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Season = null);

/// <summary>Settings that a person read off a display.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="ReadAt">Local date and time at the site.</param>
/// <param name="Text">The reading in its quick form, as typed.</param>
/// <param name="Notes">Anything else.</param>
public sealed record ReadingValue(string Controller, LocalDateTime ReadAt, string Text, string Notes = "");

/// <summary>A visit to a controller.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="At">Local date and time at the site.</param>
/// <param name="AsFound">What was read before anything was touched, in quick form; empty where nothing was.</param>
/// <param name="AsLeft">What was left, in quick form.</param>
/// <param name="BatteryVolts">Battery, V; null where not measured.</param>
/// <param name="CoilOhms">Coils measured.</param>
/// <param name="MeterM3">What the water meter showed, m3; null where not read.</param>
/// <param name="Notes">Anything else.</param>
public sealed record VisitValue(
    string Controller, LocalDateTime At, string AsFound, string AsLeft, double? BatteryVolts, ListOf<CoilReading> CoilOhms,
        double? MeterM3, string Notes);

/// <summary>A coil's resistance.</summary>
/// <param name="Station">The station.</param>
/// <param name="Ohms">Resistance, ohm.</param>
public sealed record CoilReading(int Station, double Ohms);

/// <summary>A trace of a fault: put aside for another person to take up, or ended.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="At">Local date and time at the site when it was put aside.</param>
/// <param name="Trace">Complaint, answers, repairs, and the cause that a repair confirmed.</param>
/// <param name="Notes">The same for a person to read, with the end.</param>
public sealed record TraceValue(string Controller, LocalDateTime At, TraceCase Trace, string Notes = "");

/// <summary>A photo of a visit.</summary>
/// <param name="Visit">The visit.</param>
/// <param name="Type">Its media type.</param>
/// <param name="Blob">Digest of its bytes.</param>
/// <param name="Bytes">How many there are.</param>
public sealed record PhotoValue(Guid Visit, string Type, string Blob, long Bytes);
