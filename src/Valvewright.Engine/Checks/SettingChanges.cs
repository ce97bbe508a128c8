using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What to set to get from one controller's settings to others: one start, one run time, one day rule or one percent at a
/// time.</summary>
public static class SettingChanges
{
    /// <summary>The changes, percent first, then program by program. Each is one setting.</summary>
    public static ListOf<KeyChange> Between(Settings from, Settings to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        List<KeyChange> changes = from.PercentAdjust == to.PercentAdjust ? [] : [new PercentChange(to.PercentAdjust)];
        AsFound before = new(from), after = new(to);
        foreach (char letter in from.Programs.Concat(to.Programs).Select(p => p.Letter).Distinct().Order())
        {
            Program old = before.ProgramOf(letter), wanted = after.ProgramOf(letter);
            changes.AddRange(Starts(letter, old.StartTimes, wanted.StartTimes));
            if (!AreSame(old.Days, wanted.Days))
            {
                changes.Add(new DaysChange(letter, wanted.Days));
            }

            foreach (int station in old.RunTimes.Concat(wanted.RunTimes).Select(r => r.Station).Distinct().Order())
            {
                int seconds = RunsAgainstPlan.SecondsAt(wanted, station);
                if (seconds != RunsAgainstPlan.SecondsAt(old, station))
                {
                    changes.Add(new RunChange(letter, station, seconds));
                }
            }
        }

        return changes.ToListOf();
    }

    /// <summary>How many settings differ.</summary>
    public static int Count(Settings from, Settings to) => Between(from, to).Count;

    /// <summary>Whether two rules water on the same dates; no days at all and no rule are the same.</summary>
    public static bool AreSame(DayRule? one, DayRule? other) => DaysAgainstPlan.AreSame(one, other);

    /// <summary>How to key a change in, in words.</summary>
    /// <param name="change">The change.</param>
    /// <param name="language">The language.</param>
    /// <param name="clock">How the display shows times.</param>
    /// <param name="on">The date on which it is set: days left are counted from it.</param>
    public static string Say(KeyChange change, CheckLanguage language, ClockStyle clock, LocalDate on) =>
        new CheckWords(language, clock).Change(change, on);

    private static IEnumerable<StartChange> Starts(char letter, ListOf<LocalTime> old, ListOf<LocalTime> wanted)
    {
        LocalTime[] gone = [.. old.Except(wanted).Order()], added = [.. wanted.Except(old).Order()];
        for (int i = 0; i < Math.Max(gone.Length, added.Length); i++)
        {
            yield return new StartChange(letter, i < gone.Length ? gone[i] : null, i < added.Length ? added[i] : null);
        }
    }
}
