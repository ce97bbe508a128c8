using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Changes;

/// <summary>Settings of all controllers, some changes away from those found.</summary>
/// <param name="Settings">By controller.</param>
/// <param name="Totals">By controller.</param>
/// <param name="Changes">By controller, how many settings differ from those found.</param>
internal sealed record ChangeState(Settings[] Settings, SeasonTotals[] Totals, int[] Changes)
{
    /// <summary>As in the season search: a liter that a zone lacks of the use it must have met weighs more than any water that could bring
    /// it.</summary>

    public int Distance { get; } = Changes.Sum();

    public double Cost { get; } = Totals.Sum(t => t.Water + t.Weighed + (SeasonTotals.ShortWeight * t.Short));

    /// <summary>Tells states apart.</summary>
    public string Key => string.Join('#', Settings.Select(TextOf));

    /// <summary>The same with one controller as given.</summary>
    public ChangeState With(int controller, Settings settings, SeasonTotals totals, int changes)
    {
        Settings[] all = [.. Settings];
        SeasonTotals[] sums = [.. Totals];
        int[] counts = [.. Changes];
        (all[controller], sums[controller], counts[controller]) = (settings, totals, changes);
        return new ChangeState(all, sums, counts);
    }

    private static string TextOf(Settings settings) => settings.PercentAdjust + string.Concat(settings.Programs.Select(TextOf));

    private static string TextOf(Program program)
    {
        string starts = string.Join(',', program.StartTimes.Select(s => s.NanosecondOfDay));
        string runs = string.Join(',', program.RunTimes.Select(r => $"{r.Station}={r.Seconds}"));
        string days = program.Days is DaysOfWeek week ? string.Concat(week.Days.Order().Select(d => (int)d)) : $"{program.Days}";
        return $";{program.Letter}{starts}/{runs}/{days}";
    }
}
