using Valvewright.App.Texts;
using Valvewright.Engine.Readings;
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
        doubt = words.All.Language == Language.Spanish ? doubt.InSpanish() : doubt;
        string taken = doubt.Taken.Length > 0 ? words.Fill("readback.taken", ("as", doubt.Taken)) : words["readback.leftOut"];
        string otherwise = doubt.Otherwise.Length == 0 ? "" : " " + words.Fill(doubt.Taken.Length > 0 ? "readback.orElse" : "readback.perhaps", ("else", doubt.Otherwise));
        return $"{taken}{otherwise} {doubt.Why}";
    }
}
