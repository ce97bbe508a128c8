using System.Diagnostics.CodeAnalysis;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Weather;

/// <summary>What came of reading a weather file: a record with notes, or located problems; never both, never neither.</summary>
/// <param name="Layout">The layout the file was read as; null where it was not recognised.</param>
/// <param name="Record">The weather; null where problems stood in the way.</param>
/// <param name="Notes">What was found, assumed and left out on the way.</param>
/// <param name="Problems">What stood in the way.</param>
public sealed record WeatherReading(WeatherLayout? Layout, WeatherRecord? Record, ListOf<WeatherNote> Notes, ListOf<Problem> Problems)
{
    /// <summary>Whether the weather could be read.</summary>
    [MemberNotNullWhen(true, nameof(Record), nameof(Layout))]
    public bool Ok => Record is not null && Layout is not null;

    /// <summary>A reading that only has problems.</summary>
    public static WeatherReading Failed(WeatherLayout? layout, params ReadOnlySpan<Problem> problems) =>
        new(layout, null, [], ListOf.Create(problems));
}

/// <summary>One thing to know about a reading.</summary>
/// <param name="Kind">Its weight.</param>
/// <param name="Text">The thing, in a sentence.</param>
public sealed record WeatherNote(WeatherNoteKind Kind, Sentence Text);

/// <summary>How much a note matters.</summary>
public enum WeatherNoteKind
{
    /// <summary>A fact read from the file.</summary>
    Found,

    /// <summary>Something the file does not say, and what was taken instead.</summary>
    Assumed,

    /// <summary>Something that may make the result wrong.</summary>
    Warning,
}
