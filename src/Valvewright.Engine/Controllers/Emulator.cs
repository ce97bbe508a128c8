using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>What a controller with given settings really does, to the second of its own clock.</summary>
public static class Emulator
{
    /// <summary>Every run of a station that belongs to a start on the dates <paramref name="from"/> to <paramref name="to"/>, both included.</summary>
    /// <remarks>
    /// A start just before midnight belongs to the day it began. The controller is taken to be idle at the first midnight.
    /// </remarks>
    public static Timeline Run(Profile profile, Settings settings, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(settings);
        List<(long At, int Program, int Start)> due = DueStarts(profile, settings, from, to);
        List<StationRun> runs = [];
        List<LostStart> lost = [];
        long[] free = new long[settings.Programs.Count];
        Array.Fill(free, long.MinValue);
        foreach ((long at, int index, int start) in due)
        {
            Program program = settings.Programs[index];
            long busyUntil = profile.Overlap == OverlapBehaviour.RunsBeside ? free[index] : free.Max();
            if (busyUntil > at && profile.Overlap == OverlapBehaviour.Lost)
            {
                lost.Add(new LostStart(program.Letter, at));
                continue;
            }

            bool waited = busyUntil > at;
            long clock = waited ? busyUntil + profile.PauseBetweenStationsSeconds : at;
            long end = busyUntil;
            foreach (RunTime run in program.RunTimes)
            {
                int seconds = PercentOf(run.Seconds, settings.PercentAdjust, profile.Rounding);
                if (seconds == 0)
                {
                    continue;
                }

                runs.Add(new StationRun(run.Station, program.Letter, start, clock, clock + seconds));
                end = clock + seconds;
                clock = end + profile.PauseBetweenStationsSeconds;
            }

            free[index] = end;
        }

        return new Timeline([.. runs.OrderBy(r => r.Opens).ThenBy(r => r.Program)], [.. lost]);
    }

    /// <summary>A run time scaled by percent adjust and rounded as the profile says; 0 when nothing is left of it.</summary>
    public static int PercentOf(int seconds, int percent, PercentRounding rounding)
    {
        long hundredths = (long)seconds * percent;
        return (int)(rounding switch
        {
            PercentRounding.NearestSecond => (hundredths + 50) / 100,
            PercentRounding.NearestMinute => (hundredths + 3000) / 6000 * 60,
            PercentRounding.DownToMinute => hundredths / 6000 * 60,
            PercentRounding.UpToMinute => (hundredths + 5999) / 6000 * 60,
            _ => throw new ArgumentOutOfRangeException(nameof(rounding), rounding, null),
        });
    }

    private static List<(long At, int Program, int Start)> DueStarts(Profile profile, Settings settings, LocalDate from, LocalDate to)
    {
        List<(long At, int Program, int Start)> due = [];
        for (LocalDate date = from; date <= to; date = date.PlusDays(1))
        {
            long midnight = ClockSeconds.AtMidnight(date);
            for (int index = 0; index < settings.Programs.Count; index++)
            {
                Program program = settings.Programs[index];
                if (program.Days is null || program.RunTimes.Count == 0 || !program.Days.WatersOn(date, profile))
                {
                    continue;
                }

                int start = 0;
                foreach (LocalTime time in program.StartTimes.Distinct().Order())
                {
                    due.Add((midnight + time.NanosecondOfDay / NodaConstants.NanosecondsPerSecond, index, start++));
                }
            }
        }

        due.Sort();
        return due;
    }
}
