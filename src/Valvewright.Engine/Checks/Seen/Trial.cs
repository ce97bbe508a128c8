using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>Tries slips: what would the controller have done up to now, and is that what was seen?</summary>
/// <remarks>The slips are taken to have been there as long as the observations reach back, at the percent of today.</remarks>
internal sealed class Trial(Inspection on, ListOf<Observation> observations)
{
    private readonly int daysBack = observations.Max(o => o.DaysBack);

    /// <summary>How many were tried.</summary>
    public int Count { get; private set; }

    /// <summary>Whether the observations reach back for more than a season.</summary>
    public bool ReachesFar => daysBack > 100;

    /// <summary>How well the slips fit: the product over the observations.</summary>
    public double Fit(PossibleSlip[] slips)
    {
        Count++;
        AsFound held = slips.Aggregate(on.Found, (h, s) => s.Make(h));
        int hold = slips.Select(s => s.HoldSinceDays).DefaultIfEmpty(0).Max();
        Past past = PastOf(held, hold);
        double fit = 1;
        foreach (Observation observation in observations)
        {
            fit *= observation.Fit(past);
            if (fit == 0)
            {
                break;
            }
        }

        return fit;
    }

    private Past PastOf(AsFound held, int holdSinceDays)
    {
        DateTimeZone zone = on.World.Zone;
        LocalDateTime begin = on.At.PlusDays(-daysBack - 3);
        List<OffSpell> off = [];
        if (held.Off)
        {
            off.Add(new OffSpell(begin, null));
        }
        else if (held.RainHoldDays > 0)
        {
            off.Add(new OffSpell(on.At.PlusDays(-Math.Max(holdSinceDays, 1)), null));
        }

        LocalDateTime? shows = held.ClockShows is { } now
            ? now.PlusSeconds(SecondsOf(on.World.RightClock(begin)) - SecondsOf(on.RightClock)) : null;
        Circumstances circumstances = new() { KeyedIn = begin, ClockSetTo = shows, Off = off.ToListOf() };
        Settings settings = SiteWorld.Runnable(held.Settings);
        SiteTimeline timeline = SiteEmulator.Run(on.Profile, settings, circumstances, zone, begin.Date.PlusDays(1), on.At.Date);
        Dictionary<char, int> first = timeline.Runs.GroupBy(r => r.Program).ToDictionary(g => g.Key, g => g.Min(r => r.Station));
        List<Ran> runs =
        [
            .. timeline.Runs
                .Select(r => new Ran(r.Station, r.Program, r.Opens.InZone(zone).LocalDateTime, r.Closes.InZone(zone).LocalDateTime,
                    r.Station == first[r.Program]))
                .Where(r => r.Opens < on.At),
        ];
        return new Past(on.At, [.. Expectation.Wired(on.Controller)], runs);
    }

    private static long SecondsOf(LocalDateTime time) => ClockSeconds.From(time);
}
