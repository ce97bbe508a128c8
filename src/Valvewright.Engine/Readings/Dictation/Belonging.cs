using Valvewright.Engine.Readings.Rules;
using Valvewright.Engine.Readings.Spoken;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>Which program each step belongs to. A program's letter mostly stands before what is said of it, sometimes behind: "05:00 for
/// A".</summary>
internal static class Belonging
{
    /// <summary>Letters by step; several where programs were named together, none where none was named.</summary>
    public static string[] Of(Hearing hear, IReadOnlyList<Step> steps)
    {
        string[] letters = new string[steps.Count];
        string[] named = [.. steps.SelectMany(s => s.Says.OfType<OpensProgram>()).Select(o => o.Letters).Distinct()];
        if (named.Length == 1)
        {
            // Only one program is spoken of.
            Array.Fill(letters, named[0]);
            return letters;
        }

        string current = "";
        for (int i = 0; i < steps.Count; i++)
        {
            if (steps[i].Says.OfType<OpensProgram>().FirstOrDefault() is { } opens)
            {
                bool alone = steps[i].Says.Count == 1 && Ends(hear, steps[i].End);
                bool any = Enumerable.Range(0, i).Any(j => IsOfProgram(steps[j]));
                if (current.Length == 0 && any && alone)
                {
                    for (int j = 0; j < i; j++)
                    {
                        letters[j] = opens.Letters;
                    }
                }
                else if (current.Length > 0 && alone && opens.Introduced)
                {
                    for (int j = i - 1; j >= 0 && !Parts(hear, steps[j]) && !steps[j].Says.Any(s => s is OpensProgram); j--)
                    {
                        letters[j] = opens.Letters;
                    }
                }

                current = opens.Letters;
            }

            letters[i] = current;
        }

        return letters;
    }

    private static bool IsOfProgram(Step step) =>
        step.Says.Any(s => s.Part is ReadPart.StartTimes or ReadPart.RunTimes or ReadPart.WaterDays);

    /// <summary>Whether a step is what parts one clause from the next.</summary>
    private static bool Parts(Hearing hear, Step step) =>
        step.Says.Count == 0 && (hear[step.From]!.IsPause || hear.IsText(step.From, "and", "y"));

    private static bool Ends(Hearing hear, int at) => hear.IsEnd(at) || hear.IsText(at, "and", "y");
}
