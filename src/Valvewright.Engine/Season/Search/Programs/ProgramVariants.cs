using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season.Search.Programs;

/// <summary>What a visit may make of a program with a key or two: fewer water days, or none.</summary>
/// <remarks>
/// Every variant waters on some of the program's own days, with the same starts and run times: what hours, ground and supply bear they bear
/// then too. (The rules are checked all the same.) Percents scale all programs of a controller alike; this is how one of them can be left behind.
/// </remarks>
internal static class ProgramVariants
{
    /// <summary>One water day in so many.</summary>
    private static readonly int[] OneIn = [2, 3];

    /// <summary>The program as it is, then thinned, then off (its start times cleared).</summary>
    public static Program[] Of(Program program, Profile profile)
    {
        if (program.StartTimes.Count == 0 || program.Days is null)
        {
            return [program];
        }

        DayRule[] thinned = [.. OneIn.Select(n => Thinned(program.Days, n, profile)).OfType<DayRule>().Distinct()];
        return [program, .. thinned.Select(d => program with { Days = d }), program with { StartTimes = [] }];
    }

    private static DayRule? Thinned(DayRule days, int oneIn, Profile profile) => days switch
    {
        EveryNDays every when every.Days * oneIn <= profile.LargestIntervalDays => every with { Days = every.Days * oneIn },
        DaysOfWeek week when week.Days.Count >= oneIn => new DaysOfWeek(week.Days.Order().Where((_, i) => i % oneIn == 0).ToListOf()),
        _ => null,
    };
}
