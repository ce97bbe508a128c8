using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;

namespace Valvewright.Engine.Checks;

/// <summary>What to ask next: the part not yet read in which slips are commonest.</summary>
/// <remarks>
/// The weights order the parts by how often each is at fault when a caller says "it does not do what it should"; common practice on support
/// desks, from memory. Where the caller said what was seen, <see cref="Symptoms"/> weighs the parts by the slips that would produce it.
/// </remarks>
internal static class Questions
{
    private static readonly (AskedAbout About, double Weight)[] Order =
    [
        (AskedAbout.StartTimes, 5), (AskedAbout.OnOrOff, 4), (AskedAbout.Clock, 3.5), (AskedAbout.WaterDays, 3), (AskedAbout.RunTimes, 2.5),
        (AskedAbout.Percent, 2), (AskedAbout.RainHold, 1),
    ];

    /// <summary>The best question; null when all was read.</summary>
    public static NextQuestion? Next(Inspection on)
    {
        (AskedAbout About, char? Program)? best = Unread(on.Reading, on.Profile, LettersOf(on))
            .Select(u => (u.About, u.Program)).Cast<(AskedAbout About, char? Program)?>()
            .MaxBy(u => Order.First(o => o.About == u!.Value.About).Weight - (u!.Value.Program is { } p ? (p - 'A') * 0.3 : 0));
        return best is { } ask ? new NextQuestion(ask.About, ask.Program, Words(on.Words, ask.About, ask.Program)) : null;
    }

    public static string Words(CheckWords words, AskedAbout about, char? program) => words.Say($"ask.{about}", program ?? ' ');

    /// <summary>Parts that were not read, of the programs that matter.</summary>
    public static IEnumerable<(AskedAbout About, char? Program)> Unread(Reading reading, Profile profile, IEnumerable<char> letters)
    {
        if (reading.Off is null)
        {
            yield return (AskedAbout.OnOrOff, null);
        }

        if (reading.Clock is null)
        {
            yield return (AskedAbout.Clock, null);
        }

        if (reading.Percent is null && profile.Percent.Least < profile.Percent.Largest)
        {
            yield return (AskedAbout.Percent, null);
        }

        if (reading.RainHoldDays is null && profile.LargestRainHoldDays > 0)
        {
            yield return (AskedAbout.RainHold, null);
        }

        foreach (char letter in letters)
        {
            ReadProgram? program = reading.Programs.FirstOrDefault(p => p.Letter == letter);
            if (program?.StartTimes is null)
            {
                yield return (AskedAbout.StartTimes, letter);
            }

            if (program?.Days is null)
            {
                yield return (AskedAbout.WaterDays, letter);
            }

            if (program?.RunTimes is null)
            {
                yield return (AskedAbout.RunTimes, letter);
            }
        }
    }

    private static IEnumerable<char> LettersOf(Inspection on)
    {
        IEnumerable<char> planned = on.Expected.Settings.Programs.Where(Expectation.IsActive).Select(p => p.Letter);
        return planned.Union(on.Reading.Programs.Where(p => !IsAllEmpty(p)).Select(p => p.Letter)).DefaultIfEmpty('A').Order();
    }

    private static bool IsAllEmpty(ReadProgram program) => program is { StartTimes.Count: 0 } or { RunTimes.Count: 0 } or { Days.Kind: null };
}
