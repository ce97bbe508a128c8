using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Valvewright.Engine.Readings;

/// <summary>A sentence or a part of one with its places, so that it can be said in both languages (<see cref="DoubtTexts"/>).</summary>
/// <remarks>An interpolated string becomes one by itself: its text is the English, its holes are the places.</remarks>
[InterpolatedStringHandler]
internal sealed class Phrase : IEquatable<Phrase>
{
    private readonly StringBuilder template = new();
    private readonly List<object> values = [];

    public Phrase(int literalLength, int formattedCount)
    {
        template.EnsureCapacity(literalLength + (3 * formattedCount));
        values.Capacity = formattedCount;
    }

    private Phrase(string text) => template.Append(text);

    /// <summary>No words.</summary>
    public static Phrase None { get; } = new("");

    /// <summary>The English text with numbered places.</summary>
    public string Template => template.ToString();

    /// <summary>Whether it says nothing.</summary>
    public bool IsEmpty => template.Length == 0;

    /// <summary>The phrase of an interpolated string, where the compiler would make text of it.</summary>
    public static Phrase Of(Phrase phrase) => phrase;

    public static implicit operator Phrase(string text) => new(text);

    public void AppendLiteral(string text) => template.Append(text);

    public void AppendFormatted<T>(T value) => AppendFormatted(value, null);

    public void AppendFormatted<T>(T value, string? format)
    {
        template.Append(CultureInfo.InvariantCulture, $"{{{values.Count}}}");
        values.Add(value is Phrase phrase ? phrase : (object)(value is IFormattable one ? one.ToString(format, CultureInfo.InvariantCulture) : value?.ToString() ?? ""));
    }

    /// <summary>The phrase in English or Spanish; what has no Spanish, such as a time of day, is said as it is.</summary>
    public string In(bool spanish)
    {
        string text = spanish && DoubtTexts.Spanish.TryGetValue(Template, out string? translated) ? translated : Template;
        return values.Count == 0 ? text : string.Format(CultureInfo.InvariantCulture, text, [.. values.Select(v => v is Phrase part ? part.In(spanish) : v)]);
    }

    /// <summary>Templates of it and of its parts that have no Spanish, though they hold words.</summary>
    public IEnumerable<string> Untranslated() => values.OfType<Phrase>().SelectMany(v => v.Untranslated())
        .Concat(HasWords(Template) && !DoubtTexts.Spanish.ContainsKey(Template) ? [Template] : []);

    public bool Equals(Phrase? other) => other is not null && Template == other.Template && values.SequenceEqual(other.values);

    public override bool Equals(object? obj) => Equals(obj as Phrase);

    public override int GetHashCode() => Template.GetHashCode(StringComparison.Ordinal);

    private static bool HasWords(string text)
    {
        int letters = 0;
        foreach (char c in text)
        {
            letters = char.IsLetter(c) ? letters + 1 : 0;
            if (letters > 3)
            {
                return true;
            }
        }

        return false;
    }
}
