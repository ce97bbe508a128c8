using System.Text.Json.Serialization;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Words;

/// <summary>A sentence as JSON with its places, so that anyone who reads it can still word it in another language.</summary>
/// <param name="Pattern">The English sentence with <c>{0}</c>, <c>{1}</c>, ... in its places; other languages word it under this
/// name.</param>
/// <param name="Places">What is in them.</param>
public sealed record SentenceParts(string Pattern, ListOf<SentencePlace> Places)
{
    /// <summary>The parts of a sentence.</summary>
    public static SentenceParts Of(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        return new SentenceParts(sentence.Pattern, sentence.Places.Select(place => place switch
        {
            Sentence inner => new SentencePlace(Sentence: Of(inner)),
            Amount amount => new SentencePlace(Amount: amount),
            _ => new SentencePlace(Text: place.ToString()),
        }).ToListOf());
    }

    /// <summary>The sentence.</summary>
    public Sentence ToSentence() => new(Pattern, Places.Select(p => p.Sentence?.ToSentence() ?? (object?)p.Amount ?? p.Text ?? ""));
}

/// <summary>What is in a place of a sentence: one of these.</summary>
/// <param name="Text">A name, a number, a time: the same in every language.</param>
/// <param name="Sentence">Words.</param>
/// <param name="Amount">An amount, in SI.</param>
public sealed record SentencePlace(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Text = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] SentenceParts? Sentence = null,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] Amount? Amount = null);
