using NodaTime;
using Valvewright.Engine.Audit;
using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Power;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Measured;

/// <summary>What was measured at a site: the content of a <c>measured.yaml</c> (docs/measured-file.md).</summary>
/// <param name="Audits">Catch-can tests.</param>
/// <param name="Supplies">Flow tests and pipes.</param>
/// <param name="Batteries">Batteries.</param>
/// <param name="Coils">Coils and their wires.</param>
/// <param name="Meters">Water meters.</param>
public sealed record MeasuredSite(
    ListOf<MeasuredAudit> Audits, ListOf<MeasuredSupply> Supplies, ListOf<MeasuredBattery> Batteries, ListOf<MeasuredCoil> Coils,
        ListOf<MeasuredMeter> Meters);

/// <summary>What came of reading a file of measurements.</summary>
/// <param name="Site">The measurements; null where a problem stood in the way.</param>
/// <param name="Problems">Everything that must be put right, in the order of the file.</param>
/// <param name="Questions">What can be used but is unusual.</param>
public sealed record MeasuredReading(MeasuredSite? Site, ListOf<Problem> Problems, ListOf<Problem> Questions);

/// <summary>A catch-can test of a zone.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Station">The station that waters the zone.</param>
/// <param name="On">When; null where not said.</param>
/// <param name="Cans">Readings.</param>
/// <param name="Places">Where the cans stood; empty where not said.</param>
/// <param name="WindMps">Mean wind; null where not measured.</param>
/// <param name="PressureKpa">Pressure at a head; null where not measured.</param>
/// <param name="MeterL">What went through the water meter during the test, liters; null where not read.</param>
/// <param name="IsConfirmed">Whether doubtful readings were confirmed.</param>
public sealed record MeasuredAudit(
    string Controller, int Station, LocalDate? On, CatchCans Cans, ListOf<CanPlace> Places, double? WindMps, double? PressureKpa,
        double? MeterL, bool IsConfirmed);

/// <summary>A supply with its flow test and pipes.</summary>
/// <param name="Supply">The supply's name in the site file.</param>
/// <param name="Curve">Pressure left over flow.</param>
/// <param name="Pipes">Pipes and sprinklers; null where none are given.</param>
/// <param name="Tank">The tank it draws from; null where there is none.</param>
/// <param name="Pump">The pump that feeds it; null where there is none.</param>
/// <param name="IsConfirmed">Whether doubtful readings were confirmed.</param>
public sealed record MeasuredSupply(string Supply, SupplyCurve Curve, ZonePipes? Pipes, WaterTank? Tank, PumpLimit? Pump, bool IsConfirmed);

/// <summary>A controller's battery.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Kind">The kind of battery.</param>
/// <param name="Since">The date it was put in, or read.</param>
/// <param name="Volts">A reading of volts on that date; null for a fresh battery.</param>
/// <param name="LoadMilliamps">Load while reading.</param>
/// <param name="TemperatureC">Temperature while reading.</param>
/// <param name="CapacityMah">Own capacity; null: typical.</param>
/// <param name="StandbyMicroamps">Own standby current; null: profile or typical.</param>
/// <param name="PulseMillicoulombs">Own charge of a pulse; null: profile or typical.</param>
/// <param name="IsConfirmed">Whether doubtful readings were confirmed.</param>
public sealed record MeasuredBattery(
    string Controller, BatteryType Kind, LocalDate Since, double? Volts, double LoadMilliamps, double TemperatureC,
    double? CapacityMah, double? StandbyMicroamps, double? PulseMillicoulombs, bool IsConfirmed);

/// <summary>A coil at the end of its wires.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Station">The station.</param>
/// <param name="Ohms">What the ohmmeter showed; null where not measured, infinite for no way through.</param>
/// <param name="IsAtValve">Whether it was measured at the valve; otherwise at the controller, through the wires.</param>
/// <param name="Gauge">Wire gauge; null where not known.</param>
/// <param name="WireM">Length of the pair; null where not known.</param>
/// <param name="CoilOhms">A sound coil; null: typical.</param>
/// <param name="LeastVolts">Least volts at which it latches; null: typical.</param>
/// <param name="SourceVolts">Battery or capacitor at the end of its life; null: typical.</param>
/// <param name="SourceOhms">Inner resistance; null: typical.</param>
/// <param name="IsConfirmed">Whether doubtful readings were confirmed.</param>
public sealed record MeasuredCoil(
    string Controller, int Station, double? Ohms, bool IsAtValve, int? Gauge, double? WireM,
    double? CoilOhms, double? LeastVolts, double? SourceVolts, double? SourceOhms, bool IsConfirmed);

/// <summary>A water meter and its readings.</summary>
/// <param name="Supply">The supply whose controllers it meters.</param>
/// <param name="ResolutionM3">The smallest step that is read.</param>
/// <param name="Readings">Readings by date, at noon.</param>
public sealed record MeasuredMeter(string Supply, double ResolutionM3, ListOf<(LocalDate On, double M3)> Readings);
