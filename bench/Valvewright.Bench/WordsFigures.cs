using System.Globalization;
using Valvewright.Tests;
using Valvewright.Tests.Words;

namespace Valvewright.Bench;

/// <summary>Reading ease of the pages for people and of the sentences on screens. Argument: the folder of a source tree (this
/// one).</summary>
internal static class WordsFigures
{
    public static int Run(string[] arguments)
    {
        foreach ((string what, bool isSpanish, ReadingEase.Counts counts) in ReadingEase.OfTree(
            arguments.Length > 0 ? arguments[0] : Checkout.Root))
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{what,-42}{(isSpanish ? "Szigriszt-Pazos 1993" : "Flesch 1948"),-22}{(isSpanish ? counts.Szigriszt : counts.Flesch),5:F1}"
                + $"  {counts.Sentences,5} sentences of {counts.SentenceWords:F1} words, "
                + $"{(double)counts.Syllables / counts.Words:F2} syllables per word"));
        }

        return 0;
    }
}
