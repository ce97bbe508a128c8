using Valvewright.App.Parts;

namespace Valvewright.App.Pages.Needs;

/// <summary>A figure of a zone's needs, ready to be shown and opened.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Figure">The figure with its unit.</param>
/// <param name="How">The formula, with its source.</param>
/// <param name="Inputs">What went into it.</param>
public sealed record Fact(string Name, string Figure, string How, ListOf<WhenceInput> Inputs);
