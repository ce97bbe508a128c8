using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>Start times beside the planned ones.</summary>
internal static class StartsAgainstPlan
{
    public static void Inspect(Inspection on, Consequences consequences, Program planned, Program found)
    {
        List<LocalTime> extra = [.. found.StartTimes.Except(planned.StartTimes)];
        List<LocalTime> missing = [.. planned.StartTimes.Except(found.StartTimes)];
        if (extra.Count + missing.Count == 0)
        {
            return;
        }

        char letter = planned.Letter;
        if (found.StartTimes.Count == 0)
        {
            on.Suspect(
                FindingKind.EmptyPart, Certainty.Sure, letter, [], on.Words.Say("empty.starts", letter), on.Words.Say("empty.out", letter),
                missing.Select(KeyChange (s) => new StartChange(letter, null, s)).ToListOf());
            return;
        }

        if (IsClassic(on, planned, found))
        {
            int n = found.StartTimes.Count, times = Classic.TimesADay(on, found);
            on.Suspect(
                FindingKind.StartsUsedAsStations, Certainty.Sure, letter, [],
                on.Words.Say("classic", letter, n, Math.Max(found.RunTimes.Count, planned.RunTimes.Count), Classic.TimesADay(on, planned),
                    times), on.Words.Say("classic.out", times),
                Rekeyed(letter, extra, missing));
            return;
        }

        HalfDays(on, letter, extra, missing);
        Moved(on, consequences, planned, extra, missing);
        foreach (LocalTime start in extra)
        {
            Deviates(
                on, consequences, planned, planned.StartTimes.Append(start), new StartChange(letter, start, null),
                on.Words.Say("start.extra", letter, on.Words.Time(start), found.StartTimes.Count, planned.StartTimes.Count),
                    on.Words.Say("start.out", on.Words.Time(start)));
        }

        foreach (LocalTime start in missing)
        {
            Deviates(
                on, consequences, planned, planned.StartTimes.Where(s => s != start), new StartChange(letter, null, start),
                on.Words.Say("start.missing", letter, on.Words.Time(start), found.StartTimes.Count, planned.StartTimes.Count),
                on.Words.Say("start.missing.out", on.Words.Time(start)));
        }
    }

    private static bool IsClassic(Inspection on, Program planned, Program found)
    {
        // What is at each station counts, planned or found: either may be what the person had in mind.
        bool more = found.StartTimes.Count > planned.StartTimes.Count;
        Program wanted = planned with { StartTimes = found.StartTimes };
        return more && new[] { found, wanted }.Any(p =>
            Classic.StepsFollowStations(p, r => r.Seconds, on.Profile.Stations)
            || Classic.StepsFollowStations(p, r => on.AtPercent(r.Seconds, on.Found.Settings.PercentAdjust), on.Profile.Stations)
            || (p.RunTimes.Count >= 2 && p.StartTimes.Count == p.RunTimes.Count && planned.StartTimes.Count == 1)
            || Classic.StartsMatchStationsAndOverlap(p, r => r.Seconds));
    }

    private static void HalfDays(Inspection on, char letter, List<LocalTime> extra, List<LocalTime> missing)
    {
        foreach (LocalTime start in extra.ToArray())
        {
            LocalTime meant = start.PlusHours(12);
            if (missing.Remove(meant))
            {
                extra.Remove(start);
                on.Suspect(
                    FindingKind.HalfDaySlip, Certainty.Sure, letter, [],
                        on.Words.Say("half", letter, on.Words.Time(start), on.Words.Time(meant)),
                    on.Words.Say("half.out", on.Words.Time(start)), new StartChange(letter, start, meant));
            }
        }
    }

    private static void Moved(Inspection on, Consequences consequences, Program planned, List<LocalTime> extra, List<LocalTime> missing)
    {
        while (extra.Count > 0 && missing.Count > 0)
        {
            (LocalTime from, LocalTime to) = extra.SelectMany(_ => missing, (e, m) => (e, m)).MinBy(p => Apart(p.e, p.m));
            extra.Remove(from);
            missing.Remove(to);
            Deviates(
                on, consequences, planned, planned.StartTimes.Where(s => s != to).Append(from), new StartChange(planned.Letter, from, to),
                on.Words.Say("start.moved", planned.Letter, on.Words.Time(from), on.Words.Time(to)),
                    on.Words.Say("start.out", on.Words.Time(from)));
        }
    }

    private static void Deviates(
        Inspection on, Consequences consequences, Program planned, IEnumerable<LocalTime> starts, StartChange mend, string because,
            string outside)
    {
        AsFound deviating = on.Expected.With(planned with { StartTimes = starts.Distinct().Order().ToListOf() });
        (FindingKind? kind, string sentences) = consequences.Of(deviating);
        on.Suspect(kind ?? FindingKind.StartDiffers, Certainty.Sure, planned.Letter, [], because + sentences, outside, mend);
    }

    private static ListOf<KeyChange> Rekeyed(char letter, List<LocalTime> extra, List<LocalTime> missing) =>
        extra.Select((start, i) => (KeyChange)new StartChange(letter, start, i < missing.Count ? missing[i] : null))
            .Concat(missing.Skip(extra.Count).Select(s => new StartChange(letter, null, s))).ToListOf();

    private static long Apart(LocalTime one, LocalTime other)
    {
        long apart = Math.Abs(one.NanosecondOfDay - other.NanosecondOfDay);
        return Math.Min(apart, NodaConstants.NanosecondsPerDay - apart);
    }
}
