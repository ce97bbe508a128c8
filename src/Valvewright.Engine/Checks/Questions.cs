using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;

namespace Valvewright.Engine.Checks;

/// <summary>What to ask next: the part not yet read in which slips are commonest.</summary>
/// <remarks>
/// The weights order the parts by how often each is at fault when a caller says "it does not do what it should"; common practice on support
/// desks, not checked against the printed source. Where the caller said what was seen, <see cref="Symptoms"/> weighs the parts by the
/// slips that would produce it.
/// </remarks>
internal static class Questions
{
    private static readonly (ReadPart About, double Weight)[] Order =
    [
        (ReadPart.StartTimes, 5), (ReadPart.OnOrOff, 4), (ReadPart.Clock, 3.5), (ReadPart.WaterDays, 3), (ReadPart.RunTimes, 2.5),
        (ReadPart.Percent, 2), (ReadPart.RainHold, 1),
    ];

    /// <summary>The best question: what was doubtful first, then what was not read; null when all was read.</summary>
    public static NextQuestion? Next(Inspection on)
    {
        if (on.Doubtful.Count > 0)
        {
            DoubtfulPart first = on.Doubtful
                .MaxBy(d => Order.First(o => o.About == d.Part).Weight - (d.Program is { } letter ? (letter - 'A') * 0.3 : 0));
            return new NextQuestion(first.Part, first.Program, Words(on.Words, first.Part, first.Program));
        }

        (ReadPart About, char? Program)? best = Unread(on.Reading, on.Profile, LettersOf(on))
            .Select(u => (u.About, u.Program)).Cast<(ReadPart About, char? Program)?>()
            .MaxBy(u => Order.First(o => o.About == u!.Value.About).Weight - (u!.Value.Program is { } p ? (p - 'A') * 0.3 : 0));
        return best is { } ask ? new NextQuestion(ask.About, ask.Program, Words(on.Words, ask.About, ask.Program)) : null;
    }

    public static string Words(CheckWords words, ReadPart about, char? program) => words.Say($"ask.{about}", program ?? ' ');

    /// <summary>Parts that were not read, of the programs that matter.</summary>
    public static IEnumerable<(ReadPart About, char? Program)> Unread(Reading reading, Profile profile, IEnumerable<char> letters)
    {
        if (reading.Off is null)
        {
            yield return (ReadPart.OnOrOff, null);
        }

        if (reading.Clock is null)
        {
            yield return (ReadPart.Clock, null);
        }

        if (reading.Percent is null && profile.Percent.Least < profile.Percent.Largest)
        {
            yield return (ReadPart.Percent, null);
        }

        if (reading.RainHoldDays is null && profile.LargestRainHoldDays > 0)
        {
            yield return (ReadPart.RainHold, null);
        }

        foreach (char letter in letters)
        {
            ReadProgram? program = reading.Programs.FirstOrDefault(p => p.Letter == letter);
            if (program?.StartTimes is null)
            {
                yield return (ReadPart.StartTimes, letter);
            }

            if (program?.Days is null)
            {
                yield return (ReadPart.WaterDays, letter);
            }

            if (program?.RunTimes is null)
            {
                yield return (ReadPart.RunTimes, letter);
            }
        }
    }

    private static IEnumerable<char> LettersOf(Inspection on)
    {
        IEnumerable<char> planned = on.Expected.Settings.Programs.Where(Expectation.IsActive).Select(p => p.Letter);
        return planned.Union(on.Reading.Programs.Where(p => !IsAllEmpty(p)).Select(p => p.Letter)).DefaultIfEmpty('A').Order();
    }

    private static bool IsAllEmpty(ReadProgram program) =>
        program is { StartTimes.Count: 0 } or { RunTimes.Count: 0 } or { Days.Kind: null };
}
