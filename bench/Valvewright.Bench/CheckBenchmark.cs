using System.Globalization;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Tests.Slips;

namespace Valvewright.Bench;

/// <summary>
/// A labelled set of slips in readings of the demo sites' controllers: how many the check names first, and among the first three; and how
/// many sound readings it blames. With several slips, "first" means that the first finding is one of them, "first three" that all are among
/// the first three.
/// </summary>
internal static class CheckBenchmark
{
    private const int UsualSeed = 20260714;

    /// <summary>What can be told without a plan, where the reading is whole.</summary>
    private static readonly FindingKind[] SeenAlone =
    [
        FindingKind.StartsUsedAsStations, FindingKind.EmptyPart, FindingKind.Overlap, FindingKind.HalfDaySlip, FindingKind.OutsideHours,
            FindingKind.OutsideDays,
        FindingKind.OddOnThe31st, FindingKind.RunsOff, FindingKind.StationInNoProgram, FindingKind.StationInTwoPrograms,
            FindingKind.ClockWrong,
        FindingKind.OffLeftOn, FindingKind.RainHoldLeft,
    ];

    public static int Run(string[] arguments)
    {
        int[] numbers = [.. arguments.Where(a => a.All(char.IsAsciiDigit)).Select(a => int.Parse(a, CultureInfo.InvariantCulture))];
        int perKind = numbers.Length > 0 ? numbers[0] : 12, seed = numbers.Length > 1 ? numbers[1] : UsualSeed;
        bool lists = arguments.Contains("list");
        Console.WriteLine(
            $"{SlipSet.Controllers.Count} controllers of the demo sites, plans made by the planner, {perKind} cases a kind where there are as many, seed {seed}");
        List<Tally> all = [];
        for (int slips = 1; slips <= 3; slips++)
        {
            SlipCase[] cases = [.. SlipSet.Faulty(slips == 1 ? perKind : Math.Max(1, perKind / 2), slips, seed + slips)];
            Tally tally = Judge(cases, lists);
            all.Add(tally);
            Console.WriteLine($"  {slips} slip{(slips == 1 ? " " : "s")} at a time: {tally}");
            if (slips == 1)
            {
                foreach (IGrouping<FindingKind, SlipCase> kind in cases.GroupBy(c => c.Labels[0].Kind))
                {
                    Console.WriteLine($"      {kind.Key,-22} {Judge([.. kind], false)}");
                }
            }
        }

        Tally sum = all.Aggregate((a, b) => a + b);
        Console.WriteLine($"  all: {sum}  (goals 95 % and 99 %)");
        SlipCase[] alone = [
            .. SlipSet.Faulty(perKind, 1, seed + 4).Where(c => SeenAlone.Contains(c.Labels[0].Kind)).Select(c => c with { Plan = null })];
        Console.WriteLine($"  1 slip at a time, without a plan: {Judge(alone, false)}");
        foreach (IGrouping<FindingKind, SlipCase> kind in alone.GroupBy(c => c.Labels[0].Kind))
        {
            Console.WriteLine($"      {kind.Key,-22} {Judge([.. kind], false)}");
        }

        SlipCase[] sound = [.. SlipSet.Sound(1000, seed)];
        int withPlan = Blamed(sound, c => c.Plan, Certainty.Possible, lists);
        Console.WriteLine($"  sound readings blamed, with the plan: {withPlan} of {sound.Length}  (goal 0)");
        Console.WriteLine(
            $"  sound readings blamed, without a plan: {Blamed(sound, _ => null, Certainty.Likely, lists)} of {sound.Length} as sure or likely, {Blamed(sound, _ => null, Certainty.Possible, false)} at all");
        return sum.First >= 0.95 * sum.Cases && sum.FirstThree >= 0.99 * sum.Cases && withPlan == 0 ? 0 : 1;
    }

    private static Tally Judge(SlipCase[] cases, bool lists)
    {
        Tally tally = default;
        foreach (SlipCase one in cases)
        {
            CheckResult result = Check.Of(one.Site, one.Controller, one.Plan, one.Reading, new CheckContext(one.At));
            bool first = result.Findings.Count > 0 && one.Labels.Any(l => l.IsNamedBy(result.Findings[0]));
            bool three = one.Labels.All(l => result.Findings.Take(3).Any(l.IsNamedBy));
            int beyond = result.Findings.Count(f => !one.Labels.Any(l => l.IsNamedBy(f)));
            tally += new Tally(1, first ? 1 : 0, three ? 1 : 0, beyond);
            if (lists && (!first || !three || beyond > 0))
            {
                Console.WriteLine(
                    $"    {one}    -> {string.Join("; ", result.Findings.Select(f => $"{f.Kind} {f.Program} {f.Explanation}"))}");
            }
        }

        return tally;
    }

    private static int Blamed(SlipCase[] sound, Func<SlipCase, Plan?> plan, Certainty least, bool lists)
    {
        int blamed = 0;
        foreach (SlipCase one in sound)
        {
            Finding[] findings = [.. Check.Of(one.Site, one.Controller, plan(one), one.Reading, new CheckContext(one.At)).Findings
                .Where(f => f.Certainty <= least)];
            blamed += findings.Length > 0 ? 1 : 0;
            if (lists && findings.Length > 0)
            {
                Console.WriteLine(
                    $"    sound: {one}    -> {string.Join("; ", findings.Select(f => $"{f.Kind} {f.Program} {f.Explanation}"))}");
            }
        }

        return blamed;
    }

    private readonly record struct Tally(int Cases, int First, int FirstThree, int Beyond)
    {
        public static Tally operator +(Tally a, Tally b) =>
            new(a.Cases + b.Cases, a.First + b.First, a.FirstThree + b.FirstThree, a.Beyond + b.Beyond);

        public override string ToString() => string.Create(
            CultureInfo.InvariantCulture,
            $"{Cases,4} cases, named first {100.0 * First / Math.Max(1, Cases):0.0} %, in the first three {100.0 * FirstThree / Math.Max(1, Cases):0.0} %, findings beyond the labels {Beyond}");
    }
}
