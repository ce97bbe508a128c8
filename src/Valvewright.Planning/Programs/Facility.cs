using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Programs;

/// <summary>A program that a controller could hold: its spread of watering days and its number of start times.</summary>
/// <param name="Controller">Index of the controller within the supply.</param>
/// <param name="Days">Spread of watering days.</param>
/// <param name="Cycles">Start times.</param>
/// <param name="Copy">0, or 1, 2, ... for a second and third program with the same spread and number of starts.</param>
internal readonly record struct Facility(int Controller, WaterDays Days, int Cycles, int Copy)
{
    /// <summary>What is set for it besides run times.</summary>
    public int Settings => Days.Settings + Cycles;
}

/// <summary>A program with its stations and run times, not yet with dates and start times.</summary>
internal sealed record ProgramDraft(int Controller, WaterDays Days, int Cycles, IReadOnlyList<StationDraft> Stations);

/// <summary>A station in a program draft.</summary>
/// <param name="Zone">Index of the zone within the controller.</param>
/// <param name="Choice">The choice taken for it.</param>
internal sealed record StationDraft(int Zone, Choice Choice);
