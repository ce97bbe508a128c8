using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>What is to be asked about a few words.</summary>
/// <param name="Taken">What they were taken for.</param>
/// <param name="Otherwise">What else they could be; empty for nothing in particular.</param>
/// <param name="Why">Why it is asked.</param>
/// <param name="Elsewhere">Parts that it would be about if it was understood otherwise.</param>
internal sealed record Question(Sentence Taken, Sentence Otherwise, Sentence Why, ListOf<ReadPart>? Elsewhere = null);
