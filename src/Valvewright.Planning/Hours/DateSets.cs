using NodaTime;
using Valvewright.Engine.Controllers;

namespace Valvewright.Planning.Hours;

/// <summary>Programs that are on together: those of a date, and those of the date before whose runs may pass midnight.</summary>
internal readonly record struct DateSet(UInt128 Today, UInt128 Yesterday)
{
    public bool Has(int program) => (Today >> program & 1) == 1;

    public bool HadYesterday(int program) => (Yesterday >> program & 1) == 1;

    public bool Covers(DateSet other) => (other.Today & ~Today) == 0 && (other.Yesterday & ~Yesterday) == 0;
}

/// <summary>Which programs ever meet, found by walking through the calendar.</summary>
internal static class DateSets
{
    /// <summary>Rules that meet "sooner or later" do so within a controller's life: forty years of dates are walked.</summary>
    private const int DaysWalked = 14_610;

    /// <summary>Programs that fit in one set.</summary>
    public const int MostPrograms = 128;

    /// <summary>The sets that are not part of a larger one.</summary>
    public static List<DateSet> Of(IReadOnlyList<(DayRule Rule, Profile Profile, bool MayPassMidnight)> programs, LocalDate first)
    {
        if (programs.Count > MostPrograms)
        {
            throw new NotSupportedException($"{programs.Count} programs on one supply; at most {MostPrograms} can be planned together.");
        }

        UInt128 pass = 0;
        for (int p = 0; p < programs.Count; p++)
        {
            pass |= programs[p].MayPassMidnight ? UInt128.One << p : 0;
        }

        HashSet<DateSet> found = [];
        UInt128 yesterday = 0;
        for (int day = -1; day < DaysWalked; day++)
        {
            LocalDate date = first.PlusDays(day);
            UInt128 today = 0;
            for (int p = 0; p < programs.Count; p++)
            {
                today |= Waters(programs[p].Rule, date, day, first, programs[p].Profile) ? UInt128.One << p : 0;
            }

            if (day >= 0)
            {
                found.Add(new DateSet(today, yesterday & pass));
            }

            yesterday = today;
        }

        List<DateSet> all = [.. found.OrderByDescending(s => UInt128.PopCount(s.Today) + UInt128.PopCount(s.Yesterday)).ThenByDescending(
            s => s.Today).ThenByDescending(s => s.Yesterday)];
        List<DateSet> largest = [];
        foreach (DateSet set in all)
        {
            if (!largest.Any(l => l.Covers(set)))
            {
                largest.Add(set);
            }
        }

        return largest;
    }

    /// <summary>The rule itself, but for intervals counted in plain days: forty years are walked often.</summary>
    private static bool Waters(DayRule rule, LocalDate date, int day, LocalDate first, Profile profile) =>
        rule is EveryNDays every ? (day - Period.DaysBetween(first, every.Anchor)) % every.Days == 0 : rule.WatersOn(date, profile);
}
