using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Changes;

/// <summary>Every setting of a controller that may be changed, and what to.</summary>
internal sealed class ChangeMoves
{
    private const int Minute = 60;
    private const int LongestInterval = 30;
    private const int SecondsPerDay = 24 * 60 * 60;
    private static readonly int[] StartOffsetsMinutes = [-60, -45, -30, -15, 15, 30, 45, 60];

    private readonly Profile profile;
    private readonly int[] stations;
    private readonly Settings goal;
    private readonly bool hasVisits;
    private readonly ListOf<DayRule> rules;

    /// <param name="site">The site.</param>
    /// <param name="controller">The controller.</param>
    /// <param name="found">What it holds.</param>
    /// <param name="goal">What a plan made from nothing would have it hold.</param>
    /// <param name="from">The date from which intervals are counted.</param>
    public ChangeMoves(Site site, SiteController controller, ControllerPlan found, Settings goal, LocalDate from)
    {
        (profile, this.goal, hasVisits) = (controller.Profile, goal, found.Visits.Count > 0);
        stations = [.. controller.Zones.Select(z => z.Station).Distinct().Order()];
        ListOf<PermittedSpan> hours = PermittedSpan.Of(site.Supplies.First(s => s.Name == controller.Supply).Permitted,
            PermittedSpan.ClockBehind(site, profile, from));
        rules = [.. found.Settings.Programs.Concat(goal.Programs).Select(p => p.Days).OfType<DayRule>()
            .Concat(WaterDays.OfferedBy(profile, site.Supplies.First(s => s.Name == controller.Supply).Permitted, hours, from,
                LongestInterval).SelectMany(w => w.Phases).Select(p => p.Rule))
            .Distinct()];
    }

    /// <summary>Run times of each station: sets that differ in one station's run time.</summary>
    public IEnumerable<(int Station, KeyChange[] Changes)> RunTimes(Settings held)
    {
        AsFound now = new(held);
        foreach (Program program in held.Programs)
        {
            foreach (int station in stations)
            {
                int seconds = SecondsAt(program, station);
                bool isElsewhere = seconds == 0 && held.Programs.Any(p => SecondsAt(p, station) > 0);
                if (!isElsewhere)
                {
                    yield return (station,
                        [.. SecondsFor(station, program.Letter, held.PercentAdjust).Where(s => s != seconds)
                        .Select(s => new RunChange(program.Letter, station, s))]);
                }
            }
        }
    }

    /// <summary>Every percent that can be set; none where visits set it.</summary>
    public IEnumerable<KeyChange> Percents(Settings held) => hasVisits ? [] : profile.Percent.Settings().Append(100).Distinct()
        .Where(p => p > 0 && p != held.PercentAdjust).Select(p => new PercentChange(p));

    /// <summary>Every day rule worth considering.</summary>
    public IEnumerable<KeyChange> Days(Settings held) => held.Programs
        .SelectMany(p => rules.Where(r => !SettingChanges.AreSame(r, p.Days)).Select(r => new DaysChange(p.Letter, r)));

    /// <summary>A start time fewer, and one more at a time of the goal.</summary>
    public IEnumerable<KeyChange> StartCounts(Settings held)
    {
        foreach (Program program in held.Programs)
        {
            foreach (LocalTime start in program.StartTimes)
            {
                yield return new StartChange(program.Letter, start, null);
            }

            if (program.StartTimes.Count < profile.StartTimesPerProgram)
            {
                foreach (LocalTime start in goal.Programs.SelectMany(p => p.StartTimes).Distinct().Order()
                    .Where(s => !program.StartTimes.Contains(s)))
                {
                    yield return new StartChange(program.Letter, null, start);
                }
            }
        }
    }

    /// <summary>Other times for each start: those of the goal, times near, and every whole hour.</summary>
    public IEnumerable<KeyChange> StartTimes(Settings held)
    {
        foreach (Program program in held.Programs)
        {
            foreach (LocalTime start in program.StartTimes)
            {
                IEnumerable<LocalTime> times = goal.Programs.SelectMany(p => p.StartTimes)
                    .Concat(StartOffsetsMinutes.Select(m => start.PlusMinutes(m)))
                    .Concat(Enumerable.Range(0, 24).Select(h => new LocalTime(h, 0)))
                    .Where(t => t.NanosecondOfDay / NodaConstants.NanosecondsPerMinute % profile.StartStepMinutes == 0
                        && !program.StartTimes.Contains(t))
                    .Distinct();
                foreach (LocalTime to in times)
                {
                    yield return new StartChange(program.Letter, start, to);
                }
            }
        }
    }

    private static int SecondsAt(Program program, int station) => program.RunTimes.FirstOrDefault(r => r.Station == station).Seconds;

    /// <summary>Run times by the minute, then by 2 and by 5, and what the goal gives at this percent.</summary>
    private IEnumerable<int> SecondsFor(int station, char letter, int percent)
    {
        IEnumerable<int> minutes = Enumerable.Range(0, 21).Concat(Enumerable.Range(11, 20).Select(m => 2 * m))
            .Concat(Enumerable.Range(13, 36).Select(m => 5 * m));
        int ofGoal = goal.Programs.Sum(p => SecondsAt(p, station));
        int scaled = (int)Math.Round(ofGoal * (double)goal.PercentAdjust / Math.Max(1,
            percent) / profile.RunTimeStepSeconds) * profile.RunTimeStepSeconds;
        return minutes.Select(m => m * Minute).Append(ofGoal).Append(scaled)
            .Where(s => s >= 0 && s <= Math.Min(profile.RunTimeLimitSeconds, SecondsPerDay) && s % profile.RunTimeStepSeconds == 0)
                .Distinct();
    }
}
