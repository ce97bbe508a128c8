using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Checks;
using Valvewright.Files.Problems;
using Valvewright.Files.Plans;
using Valvewright.Files.Readings;
using Valvewright.Files.Texts;
using Valvewright.Work;

namespace Valvewright.Cli.Commands;

/// <summary>What is wrong with a controller, from what a person reads off its display or has seen it do.</summary>
internal static class CheckCommand
{
    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Argument<string?> reading = new("reading")
            { Description = "The file with the reading, or - for standard input.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> controller = new("--controller")
            { Description = "The controller; not needed if there is only one or the reading names it.", HelpName = "name" };
        Option<string?> plan = new("--plan")
            { Description = "The saved plan. Default: out/plan.json next to the site file, if it exists.", HelpName = "file" };
        Option<bool> alone = new("--alone") { Description = "Check the reading by itself, without a plan." };
        Option<LocalDateTime?> at = new("--at")
            { Description = "When it was read, local time. Default: the time in the reading, otherwise now.", HelpName = "yyyy-mm-ddThh:mm",
                CustomParser = CheckArguments.ReadTime };
        Option<string?> seen = new("--seen")
            { Description = "Symptoms, for example: ran at 19:30 on Tuesday; twice a night; nothing for a week.", HelpName = "text" };
        Job job = new(
            "check", "Find what is wrong with a controller from its display or its symptoms.",
            "valvewright check demo/quarry-hill reading.txt --controller Gate --at 2026-07-14T15:20",
            "valvewright check demo/quarry-hill - --controller Gate --alone",
            "valvewright check demo/quarry-hill --controller Gate --seen \"station 2 never comes on\"");
        job.Arguments.Add(site);
        job.Arguments.Add(reading);
        foreach (Option option in new Option[] { seen, controller, plan, alone, at })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, _) => Run(
            parse.GetValue(site)!,
            new CheckArguments(parse.GetValue(reading), parse.GetValue(controller), parse.GetValue(plan), parse.GetValue(alone),
                parse.GetValue(at), sheet.Language, parse.GetValue(seen)),
            sheet));
    }

    private static int Run(string path, CheckArguments given, Sheet sheet)
    {
        SiteFile file = SiteFile.Read(path);
        Site site = file.Site;
        (string source, string text) = given.ReadText();
        SiteController controller = given.ChooseController(file, Understand(text, source, site, null).Reading.Controller);
        ReadText read = Understand(text, source, site, controller);
        if (given.Seen is null && read.Reading with { Controller = null, ReadAt = null } == new Reading())
        {
            throw new ProblemsException(
                new Problem(source, 0, 0, Printable.Of(text.Trim()), "settings, such as: A: starts 5:00; days MWF; stations 1=10 2=12",
                    null, "no setting was read"));
        }

        (string? planFile, SavedPlan? saved) = given.FindPlan(file);
        LocalDateTime now = read.Reading.ReadAt ?? given.At ?? file.Now;
        CheckSaid said = new(site, given.Language);
        SeenText? seen = given.Seen is null ? null : ObservationText.Parse(given.Seen, site.Clock, SiteNames.Of(site, controller));
        SiteYears? years = saved is null && seen is null ? YearsOf(site) : null;
        CheckReport report = CheckReport.Of(new CheckRequest(site, controller, saved?.Plan, read, seen?.Observations, now,
            said.Language) { Years = years });
        (CheckResult result, SymptomResult? symptoms) = report;
        sheet.Answer(new CheckAnswer(controller.Name, now, planFile, saved is not null && !saved.IsFor(site), read.Reading,
            read.Doubts.Select(said.In).ToListOf(), result,
            seen is null ? null : seen with { Doubts = seen.Doubts.Select(said.In).ToListOf() }, symptoms) { Water = report.Water });
        CheckPages.Write(sheet, said, site, controller, source switch { CheckArguments.NothingRead =>
            said["source.none"], CheckArguments.Input => said["source.input"], _ => source }, planFile, saved, now, read, result);
        if (report.Water is { } zones)
        {
            CheckPages.Water(sheet, said, zones);
        }

        if (seen is not null)
        {
            SeenPages.Write(sheet, said, seen, symptoms!, result);
        }

        if (report.Next is { } next)
        {
            sheet.Heading(said["ask"]);
            sheet.Say(next.Words);
        }

        return report.IsWell ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    /// <summary>The years that the survey names, for a reading without a plan; without them its water is not judged.</summary>
    private static SiteYears? YearsOf(Site site)
    {
        try
        {
            return site.Weather?.File is null ? null : SiteYears.Read(site);
        }
        catch (RefusalException)
        {
            return null;
        }
    }

    private static ReadText Understand(string text, string source, Site site, SiteController? controller)
    {
        ReadingFile file = ReadingFiles
            .Parse(text, source, controller?.Profile, controller is null ? null : site.Clock, SiteNames.Of(site, controller));
        return file.Text ?? throw new ProblemsException(file.Problems);
    }

    /// <summary>What <c>--json</c> prints.</summary>
    /// <param name="Controller">The controller's name.</param>
    /// <param name="At">Site time of the reading.</param>
    /// <param name="Plan">The plan's file; null without one.</param>
    /// <param name="SurveyHasChanged">Whether the survey has changed since the plan was made.</param>
    /// <param name="Reading">What was understood.</param>
    /// <param name="Doubts">What was doubtful.</param>
    /// <param name="Check">What is wrong.</param>
    /// <param name="Seen">What was understood of what was seen; null where nothing was said.</param>
    /// <param name="Symptoms">What explains it.</param>
    private sealed record CheckAnswer(
        string Controller, LocalDateTime At, string? Plan, bool SurveyHasChanged, Reading Reading, ListOf<Doubt> Doubts, CheckResult Check,
        SeenText? Seen, SymptomResult? Symptoms)
    {
        /// <summary>Zone by zone over the years of record, for a reading without a plan.</summary>
        public ListOf<Engine.Proof.ZoneProof>? Water { get; init; }
    }
}
