using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Planning;

namespace Valvewright.Cli.Reports;

/// <summary>How good a plan is, or why there is none, as text.</summary>
internal static class ResultPages
{
    /// <summary>The unit in which the planner counts water.</summary>
    private const string Litres = "liters per year";

    /// <summary>What was aimed at, what was reached, and what no plan can better.</summary>
    public static void Quality(Sheet sheet, Site site, PlanReport report)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Say();
        sheet.Say(report.Status == PlanStatus.Proven
            ? "No better programs exist for the aims below, in their order (tolerances: docs/planning.md)."
            : "Better programs may exist, by no more than the last column says.");
        sheet.Say();
        Table table = new("aim", ">reached", ">at best", "in", ">gap");
        foreach (AimReached aim in report.Levels)
        {
            bool isWater = aim.Unit == Litres;
            string Figure(double value) => isWater ? words.Volume(value / 1000) : SiteWords.Number(value, value == Math.Round(value) ? 0 : 1);
            table.Row(aim.Aim, Figure(aim.Value), Figure(aim.Bound), isWater ? $"{words.VolumeUnit} per year" : aim.Unit, $"{SiteWords.Number(100 * aim.Gap, 2)} %");
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("settings: watering days and start times to key in.");
    }

    /// <summary>The outcome in a few lines, for whoever reads no further.</summary>
    public static void InShort(Sheet sheet, Site site, Plan plan, ProofReport proof)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("In short");
        ProofPages.Outcome(sheet, proof);
        int programs = plan.Controllers.Sum(c => c.Settings.Programs.Count);
        sheet.Say($"{programs} program{(programs == 1 ? "" : "s")} to key in on {plan.Controllers.Count} controller{(plan.Controllers.Count == 1 ? "" : "s")}.");
        if (proof.Comparison.Count > 0)
        {
            Practice own = proof.Comparison[0];
            string auditor = proof.Rulers.AuditorM3 > 0 ? $", {SiteWords.Number(own.CubicMetresPerYear / proof.Rulers.AuditorM3, 2)} x the auditor's schedule" : "";
            sheet.Say($"Water: {words.Volume(own.CubicMetresPerYear)} {words.VolumeUnit} per year{auditor}; {SiteWords.Number(100 * own.UseMet, 0)}% of plant use met.");
        }

        AnnualDate[] visits = [.. plan.Controllers.SelectMany(c => c.Visits).Select(v => v.Date).Distinct().Order()];
        if (visits.Length > 0)
        {
            sheet.Say($"Visits: {string.Join(", ", visits.Select(d => SiteWords.Together(SiteWords.Date(d))))}.");
        }
    }

    /// <summary>What stands in the way, and what would free it.</summary>
    public static void Obstacles(Sheet sheet, PlanResult result)
    {
        sheet.Heading(result.Report.Status == PlanStatus.Impossible ? "No plan exists" : "No plan was found");
        if (result.Report.Status != PlanStatus.Impossible)
        {
            sheet.Say("It is not proven that there is none: the search ended first.");
        }

        foreach (Obstacle obstacle in result.Obstacles)
        {
            sheet.Say(obstacle.What.Text.StartsWith(obstacle.Where, StringComparison.Ordinal) ? obstacle.What.Text : $"{obstacle.Where}: {obstacle.What}", 2);
            if (obstacle.Advice.Count == 0)
            {
                continue;
            }

            sheet.Say("Any one of these would free it, each checked by planning again:");
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
        sheet.Heading("Written");
        foreach (string path in files.Paths)
        {
            sheet.Say(path);
        }
    }
}
