using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>One opening of a station in real time.</summary>
internal readonly record struct Opened(
    int Station, char Program, int Start, long Opens, long Closes, double Lpm, bool Drips, LocalDateTime Shown)
{
    public long Seconds => Closes - Opens;
}

/// <summary>What a controller does, in order of opening.</summary>
internal sealed class Doings
{
    public Doings(DateTimeZone zone, SiteController controller, Settings settings, SiteTimeline timeline)
    {
        Settings = settings;
        Overlap = controller.Profile.Overlap;
        LeadSeconds = controller.Profile.Pump?.LeadSeconds ?? 0;
        Zone = zone;
        Dictionary<int, Zone> zones = controller.Zones.DistinctBy(z => z.Station).ToDictionary(z => z.Station);
        Runs =
        [
            .. timeline.Runs.Select(r =>
            {
                Zone? watered = zones.GetValueOrDefault(r.Station);
                return new Opened(
                    r.Station, r.Program, r.Start, r.Opens.ToUnixTimeSeconds(), r.Closes.ToUnixTimeSeconds(),
                        watered?.Emission.FlowLpm ?? 0,
                    watered?.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler, r.Shown);
            }),
        ];
        Lost = [.. timeline.LostStarts.Where(l => l.Reason is LostReason.Running or LostReason.AlreadyWaiting)];
    }

    public Settings Settings { get; }

    public OverlapBehaviour Overlap { get; }

    public int LeadSeconds { get; }

    public DateTimeZone Zone { get; }

    public List<Opened> Runs { get; }

    public List<SiteLostStart> Lost { get; }

    /// <summary>Programs that get in each other's way, or their own: each pair with when it first happens. Equal letters: the program
    /// itself.</summary>
    public List<(char Late, char Running, long At)> Overlaps()
    {
        List<(char, char, long)> found = [];
        foreach (SiteLostStart lost in Lost)
        {
            long due = lost.DueAt.ToUnixTimeSeconds();
            Add(lost.Program, RunningAt(due) ?? lost.Program, due);
        }

        // A program opens its stations by rising number, so each turn begins where its lowest one opens.
        Dictionary<char, int> lowest = Runs.Where(r => r.Start >= 0).GroupBy(r => r.Program).ToDictionary(
            g => g.Key, g => g.Min(r => r.Station));
        foreach (Opened first in Runs.Where(r => r.Start >= 0 && r.Station == lowest[r.Program]))
        {
            ListOf<LocalTime> starts = Settings.Programs.First(p => p.Letter == first.Program).StartTimes;
            long late = first.Start < starts.Count ? LateSeconds(first.Shown.TimeOfDay, starts[first.Start]) - LeadSeconds : 0;
            if (late > 0 && late < 12 * 3600)
            {
                Add(first.Program, RunningAt(first.Opens - late) ?? first.Program, first.Opens - late);
            }
        }

        if (Overlap == OverlapBehaviour.RunsBeside)
        {
            foreach ((Opened one, Opened next) in Runs.Zip(Runs.Skip(1))
                .Where(p => p.First.Program != p.Second.Program && p.Second.Opens < p.First.Closes))
            {
                Add(next.Program, one.Program, next.Opens);
            }
        }

        return found;

        void Add(char late, char running, long at)
        {
            if (!found.Any(f => f.Item1 == late && f.Item2 == running))
            {
                found.Add((late, running, at));
            }
        }
    }

    private static long LateSeconds(LocalTime opens, LocalTime due)
    {
        long seconds = (opens.NanosecondOfDay - due.NanosecondOfDay) / NodaConstants.NanosecondsPerSecond;
        return seconds < 0 ? seconds + NodaConstants.SecondsPerDay : seconds;
    }

    private char? RunningAt(long unix)
    {
        foreach (Opened run in Runs)
        {
            if (run.Opens <= unix && unix < run.Closes)
            {
                return run.Program;
            }
        }

        return null;
    }
}
