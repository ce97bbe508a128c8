using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Worsened;

/// <summary>Programs as somebody else may have keyed them in: a plan with some settings changed at random.</summary>
public static class WorsenedPrograms
{
    private static readonly double[] RunFactors = [0.3, 0.5, 0.7, 1.4, 1.8, 2.5];

    /// <summary>Changes so many settings, none of them twice in the same place; controllers with a seedbed are left alone.</summary>
    public static Plan Of(Site site, Plan plan, int seed, int settings)
    {
        Random random = new(seed);
        int[] some = [.. Enumerable.Range(0, plan.Controllers.Count)
            .Where(c => plan.Controllers[c].Settings.Programs.Count > 0 && !SeedbedVisits.HasSeedbed(site.Controllers[c]))];
        HashSet<string> done = [];
        for (int tries = 0; done.Count < settings && tries < 200; tries++)
        {
            int c = some[random.Next(some.Length)];
            Settings held = plan.Controllers[c].Settings;
            int p = random.Next(held.Programs.Count);
            (string place, Settings worse) = Changed(site.Controllers[c].Profile, held, p, random);
            if (worse != held && done.Add($"{c} {place}"))
            {
                plan = plan with { Controllers = plan.Controllers.Select((own, i) => i == c ? own with { Settings = worse } : own)
                    .ToListOf() };
            }
        }

        return plan;
    }

    private static (string Place, Settings Settings) Changed(Profile profile, Settings held, int p, Random random)
    {
        Program program = held.Programs[p];
        Settings With(Program changed) => held with { Programs = held.Programs.Select((old, i) => i == p ? changed : old).ToListOf() };
        switch (random.Next(8))
        {
            case 0:
                int[] percents = [.. profile.Percent.Settings().Where(q => q is >= 40 and <= 200)];
                return ("percent", percents.Length == 0 ? held : held with { PercentAdjust = percents[random.Next(percents.Length)] });
            case 1 or 2 or 3:
                RunTime run = program.RunTimes[random.Next(program.RunTimes.Count)];
                int step = profile.RunTimeStepSeconds;
                int seconds = Math.Clamp((int)Math.Round(run.Seconds * RunFactors[random.Next(RunFactors.Length)] / step) * step, step,
                    profile.RunTimeLimitSeconds / step * step);
                return ($"{p} run {run.Station}",
                    With(program with { RunTimes = program.RunTimes.Select(r => r.Station == run.Station ? r with { Seconds = seconds } : r)
                    .ToListOf() }));
            case 4 or 5:
                return ($"{p} days", With(program with { Days = DaysOf(profile, random) }));
            case 6:
                LocalTime moved = program.StartTimes[random.Next(program.StartTimes.Count)];
                LocalTime to = moved.PlusMinutes(
                    profile.StartStepMinutes * (long)Math.Ceiling(60.0 * random.Next(1, 12) / profile.StartStepMinutes));
                return ($"{p} start", program.StartTimes.Contains(to) ? held
                    : With(program with { StartTimes = program.StartTimes.Select(s => s == moved ? to : s).Order().ToListOf() }));
            default:
                bool adds = program.StartTimes.Count == 1 || random.Next(2) == 0;
                LocalTime added = program.StartTimes[^1].PlusMinutes(
                    profile.StartStepMinutes * (long)Math.Ceiling(120.0 / profile.StartStepMinutes));
                return !adds ? ($"{p} start", With(program with { StartTimes = program.StartTimes.Skip(1).ToListOf() }))
                    : program.StartTimes.Count >= profile.StartTimesPerProgram || program.StartTimes.Contains(added) ? ("", held)
                    : ($"{p} start", With(program with { StartTimes = program.StartTimes.Append(added).Order().ToListOf() }));
        }
    }

    private static DayRule DaysOf(Profile profile, Random random)
    {
        switch (profile.DayRules[random.Next(profile.DayRules.Count)])
        {
            case DayRuleKind.DaysOfWeek:
                int mask = random.Next(1, 128);
                return new DaysOfWeek(Enumerable.Range(1, 7).Where(d => ((mask >> (d - 1)) & 1) == 1).Select(d => (IsoDayOfWeek)d)
                    .ToListOf());
            case DayRuleKind.Interval:
                return new EveryNDays(random.Next(1, Math.Min(profile.LargestIntervalDays, 10) + 1), new LocalDate(2026, 4, 1));
            case DayRuleKind.Odd:
                return new OddDays();
            default:
                return new EvenDays();
        }
    }
}
