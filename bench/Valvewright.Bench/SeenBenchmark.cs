using System.Globalization;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Tests.Slips;

namespace Valvewright.Bench;

/// <summary>
/// From what was seen to the setting: slips of the labelled set of which an owner would say one plain sentence, and that sentence, made
/// from what the faulty controller does by the emulator; how often the slip comes first, and among the first three.
/// </summary>
internal static class SeenBenchmark
{
    private static readonly FindingKind[] Kinds =
    [
        FindingKind.StartsUsedAsStations, FindingKind.HalfDaySlip, FindingKind.StationInNoProgram, FindingKind.OffLeftOn,
            FindingKind.OddOnThe31st, FindingKind.StartDiffers,
    ];

    /// <summary>Other than the one that the weights were tried on.</summary>
    private const int Seed = 20260801;

    public static int Run(string[] arguments)
    {
        int perKind = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 12;
        int all = 0, allFirst = 0, allThree = 0;
        double slowest = 0;
        foreach (IGrouping<FindingKind, SlipCase> kind in SlipSet.Faulty(perKind, 1, Seed).Where(c => Kinds.Contains(c.Labels[0].Kind))
            .GroupBy(c => c.Labels[0].Kind))
        {
            int cases = 0, first = 0, three = 0;
            foreach (SlipCase one in kind)
            {
                if (Sentence(one) is not { } said)
                {
                    continue;
                }

                long start = System.Diagnostics.Stopwatch.GetTimestamp();
                SymptomResult result = Symptoms.Rank(one.Site, one.Controller, one.Plan,
                    ObservationText.Parse(said, ClockStyle.Hours24).Observations, new CheckContext(one.At));
                slowest = Math.Max(slowest, System.Diagnostics.Stopwatch.GetElapsedTime(start).TotalSeconds);
                cases++;
                first += result.Explanations.Take(1).Any(e => e.Slips.Any(one.Labels[0].IsNamedBy)) ? 1 : 0;
                three += result.Explanations.Take(3).Any(e => e.Slips.Any(one.Labels[0].IsNamedBy)) ? 1 : 0;
                if (arguments.Contains("list") && !result.Explanations.Take(1).Any(e => e.Slips.Any(one.Labels[0].IsNamedBy)))
                {
                    Console.WriteLine(
                        $"    {one.Site.Name}, {one.Controller.Name}: {one.Labels[0]}: \"{said}\" -> {string.Join("; ", result.Explanations.Select(e => string.Join(" + ", e.Slips.Select(s => $"{s.Kind} {s.Program}"))))}");
                }
            }

            Console.WriteLine(
                $"  {kind.Key,-22} {cases,4} sentences, the slip first {Share(first, cases)}, in the first three {Share(three, cases)}");
            (all, allFirst, allThree) = (all + cases, allFirst + first, allThree + three);
        }

        Console.WriteLine(
            $"  {"all",-22} {all,4} sentences, the slip first {Share(allFirst, all)}, in the first three {Share(allThree, all)}; slowest {slowest * 1e3:0} ms");
        return 0;
    }

    private static string Share(int part, int whole) =>
        string.Create(CultureInfo.InvariantCulture, $"{100.0 * part / Math.Max(1, whole):0.0} %");

    /// <summary>What an owner would say; null where the slip is hardly seen.</summary>
    private static string? Sentence(SlipCase one)
    {
        Label label = one.Labels[0];
        switch (label.Kind)
        {
            case FindingKind.StationInNoProgram:
                return $"station {label.Station} never comes on";
            case FindingKind.OffLeftOn:
                return "nothing for two weeks";
            case FindingKind.OddOnThe31st:
                return $"station {one.Plan!.For(one.Controller.Name).Settings.Programs.First(p => p.Letter == label.Program).RunTimes[0].Station} runs on the 31st and the 1st";
        }

        Engine.Plans.ControllerPlan plan = one.Plan!.For(one.Controller.Name);
        ReadProgram read = one.Reading.Programs.First(p => p.Letter == label.Program);
        Program planned = plan.Settings.Programs.First(p => p.Letter == label.Program);
        DateTimeZone zone = one.Site.Zone();
        LocalDate from = one.At.Date.PlusDays(-13);
        SiteTimeline done = SiteEmulator.Run(
            one.Controller.Profile,
            plan.Settings with { PercentAdjust = Display.PercentOn(plan, one.At.Date),
                Programs = [planned with { StartTimes = read.StartTimes! }] },
            new Circumstances { KeyedIn = one.At.PlusDays(-40) }, zone, from, one.At.Date.PlusDays(-1));
        if (done.Runs.Count == 0)
        {
            return null;
        }

        if (label.Kind == FindingKind.StartsUsedAsStations)
        {
            int times = done.Runs.Where(r => r.Station == done.Runs[0].Station)
                .GroupBy(r => r.Opens.InZone(zone).LocalDateTime.PlusHours(-12).Date).Max(g => g.Count());
            return times > planned.StartTimes.Count ? $"station {done.Runs[0].Station} runs {times} times a night" : null;
        }

        int wrong = Enumerable.Range(0, read.StartTimes!.Count).FirstOrDefault(i => !planned.StartTimes.Contains(read.StartTimes[i]), -1);
        SiteRun? seen = wrong < 0 ? null : done.Runs.Where(r => r.Start == wrong).Cast<SiteRun?>().LastOrDefault(
            r => r!.Value.Station == done.Runs.Min(d => d.Station));
        return seen is { } run ? string.Create(CultureInfo.InvariantCulture,
            $"it ran at {run.Opens.InZone(zone).LocalDateTime:HH:mm} on {run.Opens.InZone(zone).DayOfWeek}") : null;
    }
}
