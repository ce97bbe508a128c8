using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>The classic: start times 1 to 4 used as if they were stations 1 to 4, so that everything runs four times.</summary>
internal static class Classic
{
    private const int GapToleranceSeconds = 150;

    /// <summary>Two starts of a program with more stations may follow each other by chance.</summary>
    private const int FewestTelling = 3;

    /// <summary>Whether each start follows the one before it by about the run time of one station: the marks of a person who set one
    /// start a station.</summary>
    /// <param name="program">The program.</param>
    /// <param name="secondsOf">A station's run time.</param>
    /// <param name="outputs">Stations that the controller has: a start may be there for one that this program leaves out.</param>
    public static bool StepsFollowStations(Program program, Func<RunTime, int> secondsOf, int outputs)
    {
        int stations = program.RunTimes.Count;
        if (stations < 2 || program.StartTimes.Count < Math.Min(FewestTelling, stations) || program.StartTimes.Count > Math
            .Max(stations, outputs))
        {
            return false;
        }

        return GapsFromFirst(program.StartTimes)
            .Select((gap, i) => Math.Abs(gap - secondsOf(program.RunTimes[Math.Min(i, stations - 1)])) <= GapToleranceSeconds)
            .All(near => near);
    }

    /// <summary>As many starts as stations, the next always due before the program has ended.</summary>
    public static bool StartsMatchStationsAndOverlap(Program program, Func<RunTime, int> secondsOf)
    {
        int stations = program.RunTimes.Count;
        int total = program.RunTimes.Sum(secondsOf);
        return stations >= 2 && program.StartTimes.Count == stations && GapsFromFirst(program.StartTimes).All(gap => gap < total);
    }

    /// <summary>How often a station of the program opens on a day on which it opens most, by emulation: starts that wait too long are
    /// lost.</summary>
    public static int TimesADay(Inspection on, Program program)
    {
        AsFound only = new(new Settings([program with { Days = new EveryNDays(2, on.World.First) }]));
        return on.World.Run(only, 4).Runs.GroupBy(r => (r.Station, r.Shown.Date)).Select(g => g.Count()).DefaultIfEmpty(0).Max();
    }

    /// <summary>Seconds between starts, beginning after the longest pause of the day.</summary>
    private static int[] GapsFromFirst(ListOf<LocalTime> starts)
    {
        int n = starts.Count;
        int[] seconds = [.. starts.Select(s => (int)(s.NanosecondOfDay / NodaConstants.NanosecondsPerSecond))];
        int[] after = [.. Enumerable.Range(0, n)
            .Select(i => i + 1 < n ? seconds[i + 1] - seconds[i] : seconds[0] + (int)NodaConstants.SecondsPerDay - seconds[i])];
        int longest = Array.LastIndexOf(after, after.Max());
        return [.. Enumerable.Range(1, n - 1).Select(i => after[(longest + i) % n])];
    }
}
