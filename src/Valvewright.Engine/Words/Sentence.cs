using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Json.Serialization;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Words;

/// <summary>
/// An English sentence that still knows its places, so that it can be worded in another language: it is written as a string with places in
/// it, <c>$"{n} of {m} days"</c>, and its pattern, <c>{0} of {1} days</c>, is the name under which other languages word it.
/// </summary>
/// <remarks>
/// As JSON it is its English text, and one that is read from there has no places any more; where they are to stay, its
/// <see cref="SentenceParts"/> stand beside it. Two sentences are equal where their English texts are.
/// </remarks>
[InterpolatedStringHandler]
[JsonConverter(typeof(SentenceJsonConverter))]
public sealed class Sentence : IEquatable<Sentence>
{
    private readonly StringBuilder pattern;
    private readonly List<object> places;
    private string? text;

    /// <summary>Called by the compiler where a string with places is given for a sentence.</summary>
    public Sentence(int literalLength, int formattedCount) =>
        (pattern, places) = (new StringBuilder(literalLength + (3 * formattedCount)), new List<object>(formattedCount));

    /// <summary>A sentence out of its parts.</summary>
    internal Sentence(string pattern, IEnumerable<object> places) =>
        (this.pattern, this.places) = (new StringBuilder(pattern), [.. places]);

    /// <summary>The pattern: the sentence with <c>{0}</c>, <c>{1}</c>, ... in its places.</summary>
    public string Pattern => pattern.ToString();

    /// <summary>What is in its places: text, a <see cref="Sentence"/>, or an <see cref="Amount"/>.</summary>
    public ListOf<object> Places => places.ToListOf();

    /// <summary>The English text; amounts are SI.</summary>
    public string Text => text ??= Fill(Pattern, place => place.ToString() ?? "");

    /// <summary>A sentence without places.</summary>
    public static implicit operator Sentence(string text)
    {
        Sentence sentence = new(text?.Length ?? 0, 0);
        sentence.AppendLiteral(text ?? "");
        return sentence;
    }

    /// <summary>The English text.</summary>
    [return: NotNullIfNotNull(nameof(sentence))]
    public static implicit operator string?(Sentence? sentence) => sentence?.Text;

    /// <summary>A sentence without places.</summary>
    public static Sentence FromString(string text) => text;

    /// <summary>Sentences one after another, with a comma, a blank or another sign between them that is no word.</summary>
    public static Sentence Together(IEnumerable<Sentence> sentences, string sign)
    {
        Sentence[] all = [.. sentences];
        Sentence together = new(all.Length * sign.Length, all.Length);
        for (int i = 0; i < all.Length; i++)
        {
            together.AppendLiteral(i == 0 ? "" : sign);
            together.AppendFormatted(all[i]);
        }

        return together;
    }

    /// <summary>Called by the compiler for the text between places.</summary>
    public void AppendLiteral(string literal) =>
        pattern.Append(literal?.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));

    /// <summary>Called by the compiler for a place.</summary>
    public void AppendFormatted<T>(T value) => Add(value switch
    {
        Sentence sentence => sentence,
        Amount amount => amount,
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => value?.ToString() ?? "",
    });

    /// <summary>Called by the compiler for a place with a format.</summary>
    public void AppendFormatted<T>(T value, string format)
        where T : IFormattable => Add(value?.ToString(format, CultureInfo.InvariantCulture) ?? "");

    /// <summary>A pattern of another language, with what is in the places of this sentence.</summary>
    /// <param name="other">The pattern: each of this sentence's places may stand in it, in any order.</param>
    /// <param name="said">How a place is said.</param>
    public string Fill(string other, Func<object, string> said)
    {
        ArgumentNullException.ThrowIfNull(other);
        ArgumentNullException.ThrowIfNull(said);
        StringBuilder filled = new();
        for (int i = 0; i < other.Length; i++)
        {
            bool isBrace = other[i] is '{' or '}';
            if (isBrace && i + 1 < other.Length && other[i + 1] == other[i])
            {
                filled.Append(other[i++]);
            }
            else if (other[i] == '{' && other.IndexOf('}', i) is > 0 and int close && int.TryParse(
                other.AsSpan(i + 1, close - i - 1), NumberStyles.None, CultureInfo.InvariantCulture, out int place) && place < places.Count)
            {
                filled.Append(said(places[place]));
                i = close;
            }
            else
            {
                filled.Append(other[i]);
            }
        }

        return filled.ToString();
    }

    /// <inheritdoc/>
    public bool Equals(Sentence? other) => other is not null && Text == other.Text;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Sentence);

    /// <inheritdoc/>
    public override int GetHashCode() => Text.GetHashCode(StringComparison.Ordinal);

    /// <inheritdoc/>
    public override string ToString() => Text;

    private void Add(object place)
    {
        pattern.Append(CultureInfo.InvariantCulture, $"{{{places.Count}}}");
        places.Add(place);
    }
}
