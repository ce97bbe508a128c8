using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>Every single slip worth trying on what a controller should hold, with how common it is.</summary>
/// <remarks>
/// The weights are common practice on support desks, not checked against the printed source: what is at 10 is met several times as
/// often as what is at 2. A family of slips shares its weight among its members. What was seen gives some of the times to try:
/// no one can list every start time that a person might set. Such slips weigh little, since any other time would have done as well.
/// </remarks>
internal sealed partial class PossibleSlips(
    SiteController controller, AsFound held, ControllerPlan? plan, LocalDateTime at, LocalDateTime rightClock,
        IEnumerable<Observation> seen)
{
    private readonly Profile profile = controller.Profile;
    private readonly List<PossibleSlip> slips = [];

    public List<PossibleSlip> All()
    {
        Whole();
        Clock();
        Program[] active = [.. held.Settings.Programs.Where(Expectation.IsActive)];
        foreach (Program program in active)
        {
            Starts(program, active.Length);
            Days(program, active.Length);
            Runs(program, active.Length);
        }

        Stations(active);
        return slips;
    }

    private void Add(ReadPart about, char? program, double weight, Func<AsFound, AsFound> make) =>
        slips.Add(new PossibleSlip(about, program, weight, make));

    private void Whole()
    {
        if (!held.Off)
        {
            Add(ReadPart.OnOrOff, null, 8, h => h with { Off = true });
            for (int days = 1; days <= profile.LargestRainHoldDays; days++)
            {
                int n = days;
                slips.Add(new PossibleSlip(
                    ReadPart.RainHold, null, 4.0 / profile.LargestRainHoldDays, h => h with { RainHoldDays = 1 }, n));
            }
        }

        int[] visited = [.. plan?.Visits.Select(v => v.Percent).Where(p => p > 0).Distinct() ?? []];
        foreach (int percent in profile.Percent.Settings().Where(p => p != held.Settings.PercentAdjust))
        {
            double weight = visited.Contains(percent) ? 4 : 2.0 / profile.Percent.Settings().Count();
            Add(ReadPart.Percent, null, weight, h => h with { Settings = h.Settings with { PercentAdjust = percent } });
        }
    }

    private void Clock()
    {
        if (held.ClockShows is not null)
        {
            return;
        }

        void Shows(double weight, LocalDateTime shown) => Add(ReadPart.Clock, null, weight, h => h with { ClockShows = shown });

        // A clock that is half a day out shifts every program; that a person speaks of just this one is one chance of as many.
        int programs = Math.Max(1, held.Settings.Programs.Count(Expectation.IsActive));
        double spoken = seen.OfType<RanAt>().Any() ? 1.0 / programs : 1;
        Shows(3 * spoken, rightClock.PlusHours(rightClock.Hour < 12 ? 12 : -12));
        Shows(2, rightClock.PlusHours(1));
        Shows(2, rightClock.PlusHours(-1));
        foreach (int days in new[] { -3, -2, -1, 1, 2, 3 })
        {
            Shows(4.0 / 6, rightClock.PlusDays(days));
        }

        Shows(0.5, rightClock.PlusYears(1));
        Shows(0.5, rightClock.PlusYears(-1));

        // A clock that is out by just so much that a start falls on what was seen.
        foreach (LocalTime time in ClockTimesSeen())
        {
            foreach (LocalTime start in held.Settings.Programs.SelectMany(p => p.StartTimes).Distinct())
            {
                long minutes = Period.Between(time, start, PeriodUnits.Minutes).Minutes;
                if (Math.Abs(minutes) > 15 && Math.Abs(minutes) != 720)
                {
                    Shows(0.15 * spoken, rightClock.PlusMinutes(minutes));
                }
            }
        }
    }

    private void Days(Program program, int programs)
    {
        char letter = program.Letter;
        void With(double weight, DayRule? rule)
        {
            if (!DaysAgainstPlan.AreSame(rule, program.Days)
                && (rule is null || profile.KnownDayRules.Contains(rule.Kind) || rule.Kind == program.Days?.Kind))
            {
                Add(ReadPart.WaterDays, letter, weight / programs, h => h.With(h.ProgramOf(letter) with { Days = rule }));
            }
        }

        With(2, null);
        With(3, new OddDays());
        With(2, new EvenDays());
        With(3, new DaysOfWeek(Supply.PermittedTimes.EveryWeekday));
        if (!profile.KnownDayRules.Contains(DayRuleKind.DaysOfWeek))
        {
            With(3, new EveryNDays(1, rightClock.Date));
        }

        foreach (IsoDayOfWeek dry in seen.OfType<RanOn>().Where(s => !s.Ran).Select(s => s.Weekday).Distinct())
        {
            With(1.5, new DaysOfWeek(Supply.PermittedTimes.EveryWeekday.Where(d => d != dry).ToListOf()));
        }

        foreach (RanOnlyOn only in seen.OfType<RanOnlyOn>())
        {
            With(2, new DaysOfWeek(only.Weekdays));
        }

        switch (program.Days)
        {
            case EveryNDays { Days: > 1 } every:
                for (int i = 1; i < every.Days; i++)
                {
                    With(5.0 / (every.Days - 1), every with { Anchor = every.Anchor.PlusDays(i) });
                }

                for (int n = 2; n <= Math.Min(profile.LargestIntervalDays, 2 * every.Days); n++)
                {
                    With(2.0 / every.Days, every with { Days = n });
                }

                break;
            case DaysOfWeek week:
                foreach (IsoDayOfWeek day in Supply.PermittedTimes.EveryWeekday)
                {
                    With(3.0 / 7, new DaysOfWeek(
                        (week.Days.Contains(day) ? week.Days.Where(d => d != day) : week.Days.Append(day)).Order().ToListOf()));
                }

                break;
        }
    }

    private void Runs(Program program, int programs)
    {
        char letter = program.Letter;
        Add(ReadPart.RunTimes, letter, 2.0 / programs, h => h.With(h.ProgramOf(letter) with { RunTimes = [] }));
        double each = 1.0 / program.RunTimes.Count / programs;
        foreach (RunTime run in program.RunTimes)
        {
            void With(double weight, int seconds)
            {
                if (seconds != run.Seconds && seconds <= profile.RunTimeLimitSeconds && seconds >= 0
                    && seconds % profile.RunTimeStepSeconds == 0)
                {
                    Add(ReadPart.RunTimes, letter, weight * each, h => new RunChange(letter, run.Station, seconds).ApplyTo(h));
                }
            }

            With(program.RunTimes.Count > 1 ? 5 : 0.5, 0);
            With(1.5, run.Seconds * 10);
            With(1, run.Seconds * 60);
            With(1, run.Seconds / 60);
            With(0.7, run.Seconds * 2);
            foreach (RunsFor seen in seen.OfType<RunsFor>().Where(s => s.Station is 0 || s.Station == run.Station))
            {
                With(3, seen.Minutes * 60);
            }
        }
    }

    /// <summary>A station set in a second program, or into another.</summary>
    private void Stations(Program[] active)
    {
        foreach (Program home in active)
        {
            foreach (RunTime run in home.RunTimes)
            {
                foreach (Program other in active.Where(o => o.Letter != home.Letter && o.RunTimes.All(r => r.Station != run.Station)))
                {
                    double weight = 3.0 / home.RunTimes.Count / active.Length;
                    RunChange added = new(other.Letter, run.Station, run.Seconds), gone = new(home.Letter, run.Station, 0);
                    Add(ReadPart.RunTimes, other.Letter, weight, h => added.ApplyTo(h));
                    Add(ReadPart.RunTimes, home.Letter, weight, h => gone.ApplyTo(added.ApplyTo(h)));
                }
            }
        }
    }
}
