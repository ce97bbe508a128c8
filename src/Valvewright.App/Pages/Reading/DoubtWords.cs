using Valvewright.App.Texts;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Reading;

/// <summary>A doubt as a person reads it.</summary>
public static class DoubtWords
{
    /// <summary>What it was taken for, what else it could be, and why.</summary>
    public static string Of(Doubt doubt, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(doubt);
        ArgumentNullException.ThrowIfNull(words);
        string In(Sentence sentence) => Sentences.Say(sentence, words.All.Language);
        string taken = doubt.Taken.Text.Length > 0 ? words.Fill("readback.taken", ("as", In(doubt.Taken))) : doubt.IsLeftOut
            ? words["readback.leftOut"] : "";
        string otherwise = doubt.Otherwise.Text.Length == 0 ? ""
            : words.Fill(doubt.IsLeftOut ? "readback.perhaps" : "readback.orElse", ("else", In(doubt.Otherwise)));
        return string.Join(' ', new[] { taken, otherwise, In(doubt.Why) + "." }.Where(t => t.Length > 0));
    }
}
