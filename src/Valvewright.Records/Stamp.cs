namespace Valvewright.Records;

/// <summary>Who changes something, and when.</summary>
/// <param name="By">The person's name, as they gave it.</param>
/// <param name="At">The moment.</param>
public sealed record Stamp(string By, Instant At);
