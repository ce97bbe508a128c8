using Valvewright.Engine.Words;

namespace Valvewright.Engine.Survey;

/// <summary>A measurement that can hardly be right. It is used only where the person confirms it, and is marked wherever it was
/// used.</summary>
/// <param name="Where">Which reading: <c>cans/7</c>, <c>flow test/2</c>.</param>
/// <param name="Found">What was read.</param>
/// <param name="Why">Why it is doubted, and what to look for.</param>
public sealed record DoubtfulReading(string Where, Sentence Found, Sentence Why);
