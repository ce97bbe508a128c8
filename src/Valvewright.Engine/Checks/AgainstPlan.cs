using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>Programs as read beside programs as planned. Only what was read is compared.</summary>
internal static class AgainstPlan
{
    public static void Inspect(Inspection on)
    {
        Consequences consequences = new(on);
        foreach (ReadProgram read in on.Reading.Programs.DistinctBy(p => p.Letter))
        {
            Program planned = on.Expected.ProgramOf(read.Letter), found = on.Found.ProgramOf(read.Letter);
            if (!Expectation.IsActive(planned))
            {
                Leftover(on, found);
                continue;
            }

            if (read.StartTimes is not null)
            {
                StartsAgainstPlan.Inspect(on, consequences, planned, found);
            }

            if (read.Days is not null)
            {
                DaysAgainstPlan.Inspect(on, consequences, planned, found);
            }

            if (read.RunTimes is { } runs)
            {
                RunsAgainstPlan.Inspect(on, consequences, planned, found, runs);
            }
        }
    }

    /// <summary>A program that the plan leaves empty does harm only when all its parts are there.</summary>
    private static void Leftover(Inspection on, Program found)
    {
        if (!Expectation.IsActive(found))
        {
            return;
        }

        ListOf<KeyChange> clear = found.StartTimes.Select(KeyChange (s) => new StartChange(found.Letter, s, null)).ToListOf();
        int[] shared = [.. found.RunTimes.Select(r => r.Station)
            .Where(s => on.Found.Settings.Programs.Any(p => p.Letter != found.Letter && RunsAgainstPlan.SecondsAt(p, s) > 0))];
        if (shared.Length == 0)
        {
            on.Suspect(
                FindingKind.StationInWrongProgram, Certainty.Sure, found.Letter, found.RunTimes.Select(r => r.Station).ToListOf(),
                on.Words.Say("leftover", found.Letter), on.Words.Say("leftover.out"), clear);
            return;
        }

        char home = on.Found.Settings.Programs.First(p => p.Letter != found.Letter && RunsAgainstPlan.SecondsAt(p, shared[0]) > 0).Letter;
        on.Suspect(
            FindingKind.StationInTwoPrograms, Certainty.Sure, found.Letter, shared.ToListOf(),
            on.Words.Say("leftover", found.Letter) + " " + on.Words.Say("two", on.Capital(shared), home, found.Letter),
            on.Words.Say("two.out", on.Capital(shared)), clear);
    }
}
