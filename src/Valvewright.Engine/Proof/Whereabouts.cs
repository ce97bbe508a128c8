using Valvewright.Engine.Proof.Water;

namespace Valvewright.Engine.Proof;

/// <summary>Says where something happens.</summary>
internal static class Whereabouts
{
    /// <summary><c>North, program A, station 3 (Lawn)</c>.</summary>
    public static string Of(Opening opening) =>
        $"{opening.Controller.Name}, program {opening.Run.Program}, station {opening.Run.Station}{(opening.Zone is { } zone ? $" ({zone.Name})" : "")}";
}
