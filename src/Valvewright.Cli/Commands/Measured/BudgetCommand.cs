using System.CommandLine;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Budget;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Work;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>The yearly water budgets of an ordinance, next to the water that the proof counts.</summary>
internal static class BudgetCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string> use = new("--use") { Description = "What the landscape is for: residential (ETAF 0.55) or other (0.45).",
            HelpName = "use", DefaultValueFactory = _ => "other" };
        Option<double> special = new("--special-area") { Description =
            "Special landscape area: edibles, recycled water, sports and play turf. m2, or square feet at US sites.", HelpName = "area" };
        Option<string?> plan = new("--plan")
            { Description = "The saved plan. Default: out/plan.json next to the site file, if it exists.", HelpName = "file" };
        use.AcceptOnlyFromAmong("residential", "other");
        Job job = new(
            "budget",
            "Compare the plan's yearly water with the water budgets of the California ordinance (MAWA, ETWU).",
            "valvewright budget demo/saguaro-lane",
            "valvewright budget demo/saguaro-lane --use residential --json");
        job.Arguments.Add(site);
        foreach (Option option in new Option[] { use, special, plan }) job.Options.Add(option);
        return job.Does((parse, sheet, cancel) =>
            Run(parse.GetValue(site)!, parse.GetValue(use) == "residential" ? LandscapeUse.Residential : LandscapeUse.NonResidential,
                parse.GetValue(special), parse.GetValue(plan), sheet, cancel));
    }

    private static int Run(string path, LandscapeUse use, double special, string? planFile, Sheet sheet, CancellationToken cancel)
    {
        (SiteFile file, SiteYears years) = SiteFile.ReadWithWeather(path, sheet.Progress);
        Site site = years.Site;
        bool us = site.Units == UnitSystem.UsCustomary;
        double specialM2 = us ? special * Engine.Quantities.UsUnits.MPerFoot * Engine.Quantities.UsUnits.MPerFoot : special;
        ProofReport? proof = null;
        if (planFile is not null || File.Exists(file.UsualPlan))
        {
            SavedPlan saved = file.ReadPlan(planFile);
            sheet.Progress.Step("Proving");
            proof = PlanProof.Of(new ProofRequest(years, saved.Plan, saved.From));
            cancel.ThrowIfCancellationRequested();
        }

        double area = site.Controllers.Sum(c => c.Zones.Sum(z => z.AreaM2));
        if (specialM2 < 0 || specialM2 > area)
        {
            throw new ProblemsException(
                new Files.Problems.Problem("--special-area", 0, 0, FieldAmounts.Number(special, 1), "at most the irrigated area", null,
                    "The special area is larger than the site"));
        }

        WaterBudget budget = WaterBudget.Of(years, use, specialM2);
        ListOf<BudgetZone> zones = budget.Zones.Select(z => Of(z, proof)).ToListOf();
        BudgetAnswer answer = new(budget.EtoMm, budget.AreaM2, Mwelo.AdjustmentFactor(use), budget.AllowanceL, budget.EstimatedUseL,
            proof is null ? null : zones.Sum(z => z.PlanL ?? 0), zones);
        sheet.Answer(answer);
        Show(sheet, site, answer);
        return answer.EtwuL <= answer.MawaL ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static BudgetZone Of(BudgetedZone budgeted, ProofReport? proof)
    {
        (string controller, Zone zone, double factor, double use) = budgeted;
        ZoneProof? found = proof?.Zones.FirstOrDefault(z => z.Controller == controller && z.Station == zone.Station);
        return new BudgetZone(
            controller, zone.Station, zone.Name, zone.AreaM2, factor, use, found is null ? null : found.AppliedMm * zone.AreaM2);
    }

    private static void Show(Sheet sheet, Site site, BudgetAnswer answer)
    {
        FieldAmounts amounts = FieldAmounts.Of(site, sheet);
        sheet.Heading($"{site.Name}: water budget of a year");
        sheet.Say(
            $"ETo {amounts.Depth(answer.EtoMm)} per year, mean of the weather record. ETAF {FieldAmounts.Number(answer.AdjustmentFactor, 2)}.");
        Table table = new("zone", ">plant factor", $">ETWU {amounts.VolumeUnit}", $">plan {amounts.VolumeUnit}");
        foreach (BudgetZone zone in answer.Zones)
        {
            table.Row($"{zone.Controller} {zone.Station}, {zone.Zone}", FieldAmounts.Number(zone.PlantFactor, 2),
                amounts.Volume(zone.EtwuL / 1000), zone.PlanL is { } plan ? amounts.Volume(plan / 1000) : "-");
        }

        table.Row(sheet.In("Sum"), "", amounts.Volume(answer.EtwuL / 1000), answer.PlanL is { } sum ? amounts.Volume(sum / 1000) : "-");
        sheet.Show(table);
        (string mawa, string unit) = (amounts.Volume(answer.MawaL / 1000), amounts.VolumeUnit);
        sheet.Say(answer.EtwuL <= answer.MawaL ? $"MAWA: {mawa} {unit}. ETWU is within it."
            : (Sentence)$"MAWA: {mawa} {unit}. ETWU is ABOVE it.");
        sheet.Say("ETWU counts no rain and no season; the plan's water is the mean of the proof's years.");
        sheet.Say("Local ordinances differ and change: check yours.");
    }

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record BudgetAnswer(
        double EtoMm, double AreaM2, double AdjustmentFactor, double MawaL, double EtwuL, double? PlanL, ListOf<BudgetZone> Zones);

    private sealed record BudgetZone(
        string Controller, int Station, string Zone, double AreaM2, double PlantFactor, double EtwuL, double? PlanL);
}
