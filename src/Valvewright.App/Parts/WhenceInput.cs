namespace Valvewright.App.Parts;

/// <summary>Something that went into a figure.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">Its amount with its unit.</param>
/// <param name="IsAssumed">Whether it was assumed, rather than measured or told.</param>
/// <param name="Why">Where it comes from, where it was not simply told.</param>
public sealed record WhenceInput(string Name, string Value, bool IsAssumed, string? Why = null);
