using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Planning;

namespace Valvewright.Cli.Reports;

/// <summary>How good a plan is, or why there is none, as text.</summary>
internal static class ResultPages
{
    /// <summary>The unit in which the planner counts water.</summary>
    private const string Litres = "liters per year";

    /// <summary>Controllers beyond these leave the first screen to its figures.</summary>
    private const int MostControllers = 5;

    /// <summary>The first screen: verdict, programs, water, visits, what to do next. At most 24 lines.</summary>
    public static void Summary(Sheet sheet, Site site, Plan plan, ProofReport proof, WholeFiles files)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Say();
        ProofPages.Outcome(sheet, proof);
        sheet.Say();
        Table facts = new("", "");
        int programs = plan.Controllers.Sum(c => c.Settings.Programs.Count);
        facts.Row(sheet.In("Programs"), sheet.In(plan.Controllers.Count == 1 ? (Sentence)$"{programs}, on 1 controller"
            : (Sentence)$"{programs}, on {plan.Controllers.Count} controllers"));
        if (proof.Comparison.Count > 0)
        {
            Practice own = proof.Comparison[0];
            Rulers rulers = proof.Rulers;
            facts.Row(sheet.In("Water"),
                sheet.In(
                    $"{words.Volume(own.CubicMetresPerYear)} {words.VolumeUnit} per year; auditor's schedule {words.Volume(rulers.AuditorM3)}, minimum {words.Volume(rulers.MinimumM3)}"));
            facts.Row(sheet.In("Use met"),
                sheet.In($"{words.Share(own.UseMet)} of plant use; {words.Share(own.LeastUseMet)} in the driest zone"));
        }

        VisitDates dates = VisitDates.Of(site, plan);
        facts.Row(sheet.In("Visits"), Visits(sheet, words, dates));
        foreach (string line in facts.Lines(Sheet.Width, sheet.In).Skip(1))
        {
            sheet.Verbatim(line);
        }

        if (plan.Controllers.Count <= MostControllers && SeasonPages.Fits(dates))
        {
            sheet.Say();
            SeasonPages.Table(sheet, words, plan, dates, null);
        }

        sheet.Say();
        sheet.Say(plan.Controllers.All(c => c.Settings.Programs.Count == 0)
            ? (Sentence)"Next: nothing to set. Rain and soil carry every zone; water by hand in a drought."
            : proof.Verdict.Passed
            ? (Sentence)$"Next: print {PathOf(files, "cards.pdf")} and set each controller from its card."
            : (Sentence)"Next: read the proof below for what falls short, change the survey, and plan again.", 2);
        if (files.Paths.FirstOrDefault(p => p.EndsWith("visits.ics", StringComparison.Ordinal)) is { } calendar && proof.Verdict.Passed)
        {
            sheet.Say($"Then put {calendar} in your calendar.", 2);
        }
    }

    /// <summary>The goals, what was reached, and what no plan can better.</summary>
    public static void Quality(Sheet sheet, Site site, PlanReport report, bool all)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Say(report.Status == PlanStatus.Proven
            ? (Sentence)"Proven optimal for these goals, in this order (docs/planning.md)."
            : (Sentence)"Plan is valid. Better programs may exist, by at most the gap that --full shows.");
        if (!all)
        {
            return;
        }

        sheet.Say();
        Table table = new("Goal", ">This plan", ">Best possible", "Unit", ">Gap");
        foreach (AimReached aim in report.Levels)
        {
            bool isWater = aim.Unit == Litres;
            string Figure(double value) =>
                isWater ? words.Volume(value / 1000) : SiteWords.Number(value, value == Math.Round(value) ? 0 : 1);
            table.Row(sheet.In(aim.Aim), Figure(aim.Value), Figure(aim.Bound), isWater ? sheet.In($"{words.VolumeUnit} per year")
                : sheet.In(aim.Unit), words.Percent(100 * aim.Gap, 2));
        }

        sheet.Show(table);
    }

    /// <summary>What is in the way, and what would free it.</summary>
    public static void Obstacles(Sheet sheet, PlanResult result)
    {
        bool none = result.Report.Status == PlanStatus.Impossible;
        sheet.Heading(none ? (Sentence)"No plan exists" : (Sentence)"No plan found");
        if (!none)
        {
            sheet.Say("The search stopped before this was certain.");
        }

        foreach (Obstacle obstacle in result.Obstacles)
        {
            sheet.Say(obstacle.What.Text.StartsWith(obstacle.Where, StringComparison.Ordinal) ? obstacle.What
                : (Sentence)$"{obstacle.Where}: {obstacle.What}", 2);
            if (obstacle.Advice.Count == 0)
            {
                continue;
            }

            sheet.Say("Any one of these changes would make a plan possible (each was tested):");
            foreach (SiteChange change in obstacle.Advice)
            {
                sheet.Say($"  - {change.What}", 2);
            }
        }

        sheet.Say();
        sheet.Say("Nothing was written.");
    }

    /// <summary>Where everything was put.</summary>
    public static void Files(Sheet sheet, WholeFiles files)
    {
        sheet.Heading("Files");
        foreach (string path in files.Paths)
        {
            sheet.Say($"{path}");
        }
    }

    /// <summary><c>4 per year (2 Apr, 28 May, 13 Aug, 3 Sep), plus 2 once for new seed (10 Apr, 10 May)</c>.</summary>
    private static string Visits(Sheet sheet, SiteWords words, VisitDates dates)
    {
        string List(IEnumerable<AnnualDate> of) => string.Join(", ", of.Select(d => SiteWords.Together(words.Date(d))));
        string yearly = dates.Yearly.Count == 0 ? sheet.In("none") : sheet.In($"{dates.Yearly.Count} per year ({List(dates.Yearly)})");
        return dates.Once.Count == 0 ? yearly : sheet.In($"{yearly}, plus {dates.Once.Count} once for new seed ({List(dates.Once)})");
    }

    private static string PathOf(WholeFiles files, string name) =>
        files.Paths.FirstOrDefault(p => p.EndsWith(name, StringComparison.Ordinal)) ?? name;
}
