using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>Slips in start times.</summary>
internal sealed partial class PossibleSlips
{
    private void Starts(Program program, int programs)
    {
        char letter = program.Letter;
        void With(double weight, IEnumerable<LocalTime> starts)
        {
            // Only what the display can show can have been set.
            ListOf<LocalTime> list = starts.Select(OnStep).Distinct().Order().ToListOf();
            if (list.Count <= profile.StartTimesPerProgram && !list.Equals(program.StartTimes))
            {
                Add(ReadPart.StartTimes, letter, weight / programs, h => h.With(h.ProgramOf(letter) with { StartTimes = list }));
            }
        }

        With(3, []);
        int n = program.RunTimes.Count;
        if (n >= 2 && n > program.StartTimes.Count)
        {
            With(10, OnePerStation(program));
            foreach (int pitch in new[] { 15, 30, 60 })
            {
                With(2, Enumerable.Range(0, n).Select(i => program.StartTimes[0].PlusMinutes(i * pitch)));
            }
        }

        double each = 1.0 / program.StartTimes.Count;
        foreach (LocalTime start in program.StartTimes)
        {
            IEnumerable<LocalTime> others = program.StartTimes.Where(s => s != start);
            With(8 * each, others.Append(start.PlusHours(12)));
            With(1.5 * each, program.StartTimes.Append(start.PlusHours(12)));
            With(0.7 * each, others.Append(start.PlusHours(1)));
            With(0.7 * each, others.Append(start.PlusHours(-1)));
            if (program.StartTimes.Count > 1)
            {
                With(2 * each, others);
            }
        }

        foreach (LocalTime time in ClockTimesSeen())
        {
            With(0.5, program.StartTimes.Append(time));
            With(0.4, program.StartTimes.Skip(1).Append(time));
        }

        foreach (int times in seen.OfType<TimesADay>().Select(t => t.Times)
            .Where(t => t > program.StartTimes.Count && t <= profile.StartTimesPerProgram))
        {
            int length = program.RunTimes.Sum(r => r.Seconds) / 60 + 30;
            With(2, program.StartTimes
                .Concat(Enumerable.Range(1, times - program.StartTimes.Count).Select(i => program.StartTimes[^1].PlusMinutes(i * length))));
        }
    }

    /// <summary>The nearest time that the display can show; anyone who sees water may have come some minutes late.</summary>
    private LocalTime OnStep(LocalTime time)
    {
        int step = Math.Max(1, profile.StartStepMinutes), minutes = (time.Hour * 60) + time.Minute;
        return LocalTime.Midnight.PlusMinutes((int)Math.Round((double)minutes / step) * step);
    }

    /// <summary>Times at which something was seen, as the controller's clock shows them.</summary>
    private IEnumerable<LocalTime> ClockTimesSeen() =>
        seen.OfType<RanAt>().Where(r => r.Ran)
            .Select(r => r.Time.PlusMinutes(-Period.Between(rightClock, at, PeriodUnits.Minutes).Minutes)).Distinct();

    private IEnumerable<LocalTime> OnePerStation(Program program)
    {
        LocalTime next = program.StartTimes[0];
        int step = Math.Max(1, profile.StartStepMinutes);
        foreach (RunTime run in program.RunTimes)
        {
            yield return next;
            next = next.PlusMinutes(((run.Seconds + 59) / 60 + step - 1) / step * step);
        }
    }
}
