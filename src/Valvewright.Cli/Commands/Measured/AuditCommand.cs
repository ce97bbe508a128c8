using System.CommandLine;
using System.Globalization;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Audit;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;
using Valvewright.Files.Measured;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Sheet;
using Valvewright.Files.Texts;
using Valvewright.Work;
using Valvewright.Work.Search;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>Catch-can tests: what they say, and the plan and proof that follow from them.</summary>
internal static class AuditCommand
{
    public static Job Make()
    {
        MeasuredArguments arguments = new();
        Option<bool> only = new("--no-plan") { Description = "Work out the audit alone; do not plan." };
        Option<LocalDate?> from = SiteArguments.From("First date on which the plan is in force. Default: today at the site.");
        Option<string?> output = new("--out")
            { Description = "Folder for the changed plan, its proof and cards. Default: out next to the site file.", HelpName = "folder" };
        Option<bool> apply = new(
            "--apply") { Description = "Write the catch-can tests into the site file, replacing what was assumed." };
        Option<string?> svg = new("--svg")
            { Description = "Draw the pattern of each audit whose cans have places, as <name>-<controller>-<station>.svg.",
                HelpName = "name" };
        Job job = new(
            "audit",
            "Work out catch-can tests, plan the site again with them, and prove the plan.",
            "valvewright audit demo/polder-green --no-plan",
            "valvewright audit demo/polder-green --from 2026-04-01 --out my-plan --svg pattern");
        arguments.AddTo(job);
        foreach (Option option in new Option[] { only, from, output, apply, svg }) job.Options.Add(option);
        return job.Does((parse, sheet, cancel) =>
            Run(arguments, parse,
                new Wish(parse.GetValue(only), parse.GetValue(from), parse.GetValue(output), parse.GetValue(apply), parse.GetValue(svg)),
                    sheet, cancel));
    }

    private static int Run(MeasuredArguments arguments, ParseResult parse, Wish wish, Sheet sheet, CancellationToken cancel)
    {
        SiteFile file = SiteFile.Read(arguments.SitePath(parse));
        sheet.Heading($"{file.Site.Name}: catch-can tests");
        MeasuredSite measured = arguments.Read(parse, file, sheet);
        MeasuredArguments.Caution(sheet,
            FieldCaution.ForCans(measured.Audits.Any(a =>
                file.Site.SupplyNamed(file.Site.ControllerNamed(a.Controller).Supply).IsReclaimed)));
        AuditAnswer[] audits = [.. measured.Audits.Select(a => Answer(sheet, file.Site, a))];
        foreach (AuditAnswer audit in audits) Show(sheet, FieldAmounts.Of(file.Site, sheet), audit);
        if (audits.Length == 0) sheet.Say("No zone was audited. Add 'audits:' to the file of measurements.");
        WholeFiles pictures = Pictures(wish.Svg, audits, sheet);
        string audited = WithAudits(file, measured);
        WholeFiles surveys = new(Path.GetDirectoryName(file.Path) is { Length: > 0 } folder ? folder : ".");
        if (wish.Applies && audits.Length > 0) surveys.Add(Path.GetFileName(file.Path), audited);
        if (wish.Only || audits.Length == 0)
        {
            sheet.Answer(new AuditsAnswer([.. audits], null, null, []));
            pictures.Write();
            surveys.Write();
            return ExitCode.Done;
        }

        (SitePlan before, SitePlan after) = Plans(file, audited, wish, sheet, cancel);
        WholeFiles files = after.Plan is null ? new WholeFiles(file.OutputFolder)
            : PlanFolder.Of(wish.Output ?? file.OutputFolder, after, sheet.Language);
        Changes(sheet, file.Site, audits, before, after);
        if (after.Plan is not null) sheet.Say($"Written: {string.Join(", ", files.Paths)}", 2);
        sheet.Answer(new AuditsAnswer([.. audits], before.Proof, after.Proof, files.Paths.Concat(pictures.Paths).ToListOf()));
        if (after.Plan is not null) files.Write();
        pictures.Write();
        surveys.Write();
        sheet.Say(wish.Applies ? (Sentence)$"The tests are now in {file.Path}."
            : (Sentence)$"The tests are not in {file.Path} yet: --apply writes them there.", 2);
        return after.Proof is { Verdict.Passed: true } ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static AuditAnswer Answer(Sheet sheet, Site site, MeasuredAudit measured)
    {
        Zone zone = site.ControllerNamed(measured.Controller).ZoneAt(measured.Station);
        ZoneAudit found = ZoneAudit.Of(zone, measured.Cans, measured.Places, measured.WindMps, measured.PressureKpa, measured.MeterL);
        MeasuredArguments.Settle(sheet, $"{measured.Controller} {measured.Station}", found.Doubtful, measured.IsConfirmed);
        return new AuditAnswer(measured.Controller, measured.Station, zone.Name, found.Audit, found.Confidence, found.Repair, found.Ways,
            found.Doubtful);
    }

    private static string WithAudits(SiteFile file, MeasuredSite measured) =>
        measured.Audits.Aggregate(File.ReadAllText(file.Path), (text, audit) =>
        AuditSheet.With(text, audit.Controller, audit.Station, audit.Cans) ?? throw new ProblemsException(new Problem(
            file.Path, 0, 0, $"{audit.Controller} {audit.Station}", "a site file that can be read with the test in it", null,
                "the test cannot be put into the site file; put it there by hand")));

    private static (SitePlan Before, SitePlan After) Plans(SiteFile file, string audited, Wish wish, Sheet sheet, CancellationToken cancel)
    {
        SiteYears years = SiteYears.Read(file.Site);
        LocalDate from = wish.From ?? file.Today;
        SeasonOptions options = new();
        SitePlan before = SitePlan
            .Of(new PlanRequest(years, from, options, HasCurve: false), (step, _) => sheet.Progress.Step($"As surveyed: {step}"), cancel);
        Site site = SurveyFiles.ParseApart(audited, file.Path).Site! with { Weather = file.Site.Weather };
        SitePlan after = SitePlan.Of(new PlanRequest(years.With(site), from, options, HasCurve: false), (step, _) =>
            sheet.Progress.Step($"As audited: {step}"), cancel);
        return (before, after);
    }

    private static WholeFiles Pictures(string? name, AuditAnswer[] audits, Sheet sheet)
    {
        WholeFiles files = new(Path.GetDirectoryName(name) is { Length: > 0 } folder ? folder : ".");
        if (name is null) return files;
        foreach (AuditAnswer audit in audits.Where(a => a.Audit.Places.Count > 0))
        {
            string controller = new([.. audit.Controller.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')]);
            try
            {
                files.Add($"{Path.GetFileName(name)}-{controller}-{audit.Station.ToString(CultureInfo.InvariantCulture)}.svg",
                    PatternPicture.Svg(sheet.In($"{audit.Controller} {audit.Station}, {audit.Zone}: catch cans"), audit.Audit,
                        sheet.In("Percent of the mean depth. Lines: 50, 75 (thick), 100, 125 and 150%. Dry below 75%.")));
            }
            catch (ArgumentException reason)
            {
                throw new ProblemsException(
                    new Problem($"{audit.Controller} {audit.Station}/places", 0, 0, "", "cans in two directions, each at its own place",
                        null, Reason.Of(reason).TrimEnd('.')));
            }
        }

        return files;
    }

    private static void Show(Sheet sheet, FieldAmounts amounts, AuditAnswer answer)
    {
        CatchCans cans = answer.Audit.Cans;
        sheet.Heading($"{answer.Controller} {answer.Station}, {answer.Zone}");
        AuditConfidence sure = answer.Confidence;
        Table table = new("", ">value", ">95% from", ">to");
        table.Row(sheet.In("Net rate"), amounts.Rate(cans.NetRateMmPerHour), amounts.Rate(sure.NetRateMmPerHour.Low),
            amounts.Rate(sure.NetRateMmPerHour.High));
        table.Row(sheet.In($"Low-quarter uniformity ({cans.QuarterRule})"), amounts.Percent(cans.LowQuarterUniformity),
            amounts.Percent(sure.LowQuarterUniformity.Low), amounts.Percent(sure.LowQuarterUniformity.High));
        table.Row(sheet.In("Low-half uniformity"), amounts.Percent(answer.Audit.LowHalfUniformity), "", "");
        table.Row(sheet.In("Christiansen uniformity"), amounts.Percent(cans.ChristiansenUniformity), "", "");
        foreach (RateEvidence way in answer.Ways.Skip(1)) table.Row(sheet.In($"Rate by {way.Way}"), amounts.Rate(way.RateMmPerHour),
            amounts.Rate(way.RateMmPerHour * (1 - way.Off)), amounts.Rate(way.RateMmPerHour * (1 + way.Off)));
        sheet.Show(table);
        foreach (Sentence remark in answer.Audit.Remarks) sheet.Say($"- {remark}", 2);
        foreach (CansAndWidth more in sure.MoreCans) sheet.Say(
            $"- With {more.Cans} cans uniformity would be known to about +-{FieldAmounts.Number(100 * more.HalfWidth, 0)} points (now +-{FieldAmounts.Number(100 * sure.LowQuarterUniformity.HalfWidth, 0)}).", 2);
        sheet.Say(
            $"Driest cans: {string.Join(", ", answer.Audit.DriestCans.Select(i => $"{i + 1} ({amounts.Depth(answer.Audit.DepthsMm[i])})"))}.", 2);
    }

    private static void Changes(Sheet sheet, Site site, AuditAnswer[] audits, SitePlan before, SitePlan after)
    {
        FieldAmounts amounts = FieldAmounts.Of(site, sheet);
        sheet.Heading("Plan and proof with the cans");
        if (after.Proof is not { } now)
        {
            sheet.Say("No plan is possible with the audited zones. Run 'plan' with the audit in the site file to see what is in the way.");
            return;
        }

        Table table = new("audited zone", $">water before {amounts.VolumeUnit}", ">after", ">use met before", ">after",
            ">fixing the worst saves");
        foreach (AuditAnswer audit in audits)
        {
            (ZoneProof? was, ZoneProof? zone) = (Of(before.Proof, audit), Of(now, audit));
            double water = (zone?.AppliedMm ?? 0) * (zone?.AreaM2 ?? 0) / 1000;
            table.Row(
                $"{audit.Controller} {audit.Station}", was is null ? "-" : amounts.Volume(was.AppliedMm * was.AreaM2 / 1000),
                    amounts.Volume(water),
                was is null ? "-" : amounts.Percent(was.UseMet), zone is null ? "-" : amounts.Percent(zone.UseMet),
                $"{amounts.Volume(water * (1 - audit.Repair.WaterFactor))} {amounts.VolumeUnit}");
        }

        sheet.Show(table);
        sheet.Say("Water per year, mean of the proof's years. Use met: what the low quarter had of the water it could use.");
        foreach (AuditAnswer audit in audits.Where(a => a.Repair.Cans.Count > 0))
        {
            sheet.Say(
                $"{audit.Controller} {audit.Station}: fix what waters cans {string.Join(", ", audit.Repair.Cans.Select(i => i + 1))} (nozzle, tilt, height, arc). Uniformity would rise from {amounts.Percent(audit.Repair.UniformityBefore)} to {amounts.Percent(audit.Repair.UniformityAfter)}, and water fall by {amounts.Percent(1 - audit.Repair.WaterFactor)} for the same driest quarter.", 2);
        }

        ProofPages.Verdict(sheet, site, now);
    }

    private static ZoneProof? Of(ProofReport? proof, AuditAnswer audit) =>
        proof?.Zones.FirstOrDefault(z => z.Controller == audit.Controller && z.Station == audit.Station);

    private sealed record Wish(bool Only, LocalDate? From, string? Output, bool Applies, string? Svg);

    /// <summary>What <c>--json</c> prints.</summary>
    private sealed record AuditsAnswer(ListOf<AuditAnswer> Audits, ProofReport? Before, ProofReport? After, ListOf<string> Files);

    private sealed record AuditAnswer(
        string Controller, int Station, string Zone, CatchCanAudit Audit, AuditConfidence Confidence, SprinklerRepair Repair,
            ListOf<RateEvidence> Ways, ListOf<DoubtfulReading> Doubtful);
}
