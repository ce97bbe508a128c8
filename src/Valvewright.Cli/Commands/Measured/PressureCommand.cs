using System.CommandLine;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Measured;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Editing;
using Valvewright.Files.Timelines;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>Pressure and flow of a supply's zones, alone and together as the timeline runs them.</summary>
internal static class PressureCommand
{
    private const int MostSets = 40;

    public static Job Make()
    {
        MeasuredArguments arguments = new();
        Option<string?> plan = new("--plan")
            { Description = "The saved plan whose timeline is checked. Default: out/plan.json next to the site file, if it exists.",
                HelpName = "file" };
        Option<bool> apply = new("--apply") { Description = "Write the largest flow that each supply can carry into the site file as its " +
            "limit, but no more than was measured; the next plan keeps to it." };
        Job job = new(
            "pressure",
            "Solve the pipes of each measured supply: pressure left at the last sprinkler, velocity, largest flow.",
            "valvewright pressure demo/polder-green",
            "valvewright pressure demo/polder-green --language es --json");
        arguments.AddTo(job);
        job.Options.Add(plan);
        job.Options.Add(apply);
        return job.Does((parse, sheet, cancel) => Run(arguments, parse, parse.GetValue(plan), parse.GetValue(apply), sheet, cancel));
    }

    private static int Run(
        MeasuredArguments arguments, ParseResult parse, string? planFile, bool applies, Sheet sheet, CancellationToken cancel)
    {
        SiteFile file = SiteFile.Read(arguments.SitePath(parse));
        Site site = file.Site;
        sheet.Heading($"{site.Name}: pressure and flow");
        MeasuredSite measured = arguments.Read(parse, file, sheet);
        MeasuredArguments.Caution(sheet,
            FieldCaution.ForPressure(measured.Supplies.Any(s => TankOf(s, site) is not null || PumpOf(s, site) is not null),
                site.Supplies.Any(s => s.IsReclaimed)));
        SiteWaterings? year = Year(file, planFile);
        ListOf<OpenTogether> together = year is null ? []
            : OpenTogether.Of(year.Waterings.Select(w => new StationOpening(new StationId(w.Controller, w.Station), w.Opens, w.Closes)));
        List<SupplyAnswer> answers = [];
        foreach (MeasuredSupply supply in measured.Supplies)
        {
            cancel.ThrowIfCancellationRequested();
            sheet.Progress.Step($"Solving {supply.Supply}");
            ListOf<DoubtfulReading> doubts = supply.Curve.Rises
                ? [new DoubtfulReading("flow test", "pressure that rises with flow",
                    "A supply loses pressure with flow; check which gauge was read, and whether another user closed in between")]
                : [];
            MeasuredArguments.Settle(sheet, supply.Supply, doubts, supply.IsConfirmed);
            answers.Add(Answer(supply, site, doubts, together, year));
        }

        foreach (SupplyAnswer answer in answers) Show(sheet, FieldAmounts.Of(site, sheet), site, answer);
        if (answers.Count == 0) sheet.Say("No supply was measured. Add 'supplies:' with a flow test to the file of measurements.");
        sheet.Answer(answers.ToListOf());
        if (applies) Apply(file, answers, sheet);
        return answers.Count > 0 && answers.All(a => a.IsGood) ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    /// <summary>Changes the limits in the site file and nothing else in it.</summary>
    private static void Apply(SiteFile file, List<SupplyAnswer> answers, Sheet sheet)
    {
        string before = File.ReadAllText(file.Path);
        string text = before;
        foreach (SupplyAnswer answer in answers.Where(a => a.Largest.Zone is not null))
        {
            double limit = Math.Min(answer.Largest.FlowLpm, answer.Curve.LargestMeasuredFlowLpm);
            text = SurveyEdits.Limited(text, answer.Supply, limit, file.Site.Units) ?? throw new ProblemsException(new Problem(
                file.Path, 0, 0, answer.Supply, "a supply whose 'name' comes first and whose 'flow' is a plain value", null,
                    "The flow limit cannot be changed by itself; change it by hand"));
            double now = SurveyFiles.ParseApart(text, file.Path).Site!.SupplyNamed(answer.Supply).FlowLpm;
            FieldAmounts amounts = FieldAmounts.Of(file.Site, sheet);
            sheet.Say($"Flow limit of '{answer.Supply}' is now {amounts.Flow(now)} {amounts.FlowUnit} in {file.Path}. Plan again.", 2);
        }

        if (text != before) new WholeFiles(Path.GetDirectoryName(file.Path) is { Length: > 0 } folder ? folder : ".")
            .Add(Path.GetFileName(file.Path), text).Write();
    }

    private static SupplyAnswer Answer(
        MeasuredSupply supply, Site site, ListOf<DoubtfulReading> doubts, ListOf<OpenTogether> together, SiteWaterings? year)
    {
        FlowSpell[] spells =
            [.. (year?.Waterings ?? []).Where(w => w.Supply == supply.Supply).Select(w => new FlowSpell(w.Opens, w.Closes, w.FlowLpm))];
        SupplyAnswer answer = new(supply.Supply, supply.Curve, doubts, site.SupplyNamed(supply.Supply).FlowLpm, [], [],
            new BearableFlow(double.PositiveInfinity, null, null, []))
        {
            Tank = TankOf(supply, site) is { } tank && spells.Length > 0 ? TankLevel.Of(tank, spells) : null,
            Starts = PumpOf(supply, site) is { } pump && spells.Length > 0 ? PumpStarts.Of(spells, pump.RunsOn) : null,
            StartsAllowed = PumpOf(supply, site)?.StartsPerHour,
        };
        if (supply.Pipes is not { } pipes) return answer;
        StationId[] known = [.. pipes.Zones];
        return answer with
        {
            Alone = known.Select(z => pipes.Run(z, [z])).ToListOf(),
            Together = together
                .Select(set => set.Zones.Where(known.Contains).ToArray()).Where(set => set.Length > 1).Take(MostSets)
                .SelectMany(set => set.Select(z => pipes.Run(z, set))).ToListOf(),
            Largest = pipes.LargestFlow(),
        };
    }

    /// <summary>What was measured, or else what the site file says.</summary>
    private static WaterTank? TankOf(MeasuredSupply supply, Site site) => supply.Tank ?? site.SupplyNamed(supply.Supply).Tank;

    private static PumpLimit? PumpOf(MeasuredSupply supply, Site site) => supply.Pump ?? site.SupplyNamed(supply.Supply).Pump;

    /// <summary>A year of the saved plan; null without one.</summary>
    private static SiteWaterings? Year(SiteFile file, string? planFile)
    {
        if (planFile is null && !File.Exists(file.UsualPlan)) return null;
        SavedPlan saved = file.ReadPlan(planFile);
        return SiteWaterings.Of(file.Site, saved.Plan, saved.From, saved.From.PlusYears(1).PlusDays(-1));
    }

    private static void Show(Sheet sheet, FieldAmounts amounts, Site site, SupplyAnswer answer)
    {
        sheet.Heading(answer.Supply);
        foreach (FlowTestPoint point in answer.Curve.Points) sheet
            .Say($"{amounts.Flow(point.FlowLpm)} {amounts.FlowUnit}: {amounts.Pressure(point.PressureKpa)} {amounts.PressureUnit}");
        Stored(sheet, amounts, site, answer);
        if (answer.Alone.Count == 0)
        {
            sheet.Say("No pipes were measured; add 'pipes:' and 'sprinklers:' to see the pressure at the zones.");
            return;
        }

        sheet.Say();
        Table table = new("zone", "with", $">{amounts.FlowUnit}", $">lowest {amounts.PressureUnit}", ">needs", ">highest", ">bears",
            ">velocity", "");
        foreach (ZoneRunPressure run in answer.Alone.Concat(answer.Together))
        {
            table.Row(
                run.Zone.ToString(), string.Join(", ", run.With), amounts.Flow(run.FlowLpm), amounts.Pressure(run.LowestKpa),
                    amounts.Pressure(run.LeastKpa),
                amounts.Pressure(run.HighestKpa), amounts.Pressure(run.LargestKpa), amounts.Velocity(run.VelocityMps),
                string.Join(", ", Verdicts(run).Select(sheet.In)));
        }

        sheet.Show(table);
        sheet.Say();
        foreach (StationId failing in answer.Largest.FailAlone) sheet
            .Say($"{failing} has too little pressure even alone: fewer heads, a thicker pipe, or a pump.");
        if (answer.Largest.Zone is { } zone)
        {
            string stated = amounts.Flow(answer.LimitOfSurveyLpm);
            Sentence surveyed = answer.LimitOfSurveyLpm > answer.Largest.FlowLpm
                ? (Sentence)$"The site file says {stated}: change 'flow' of '{answer.Supply}' and plan again."
                : (Sentence)$"The site file says {stated}, which is within it.";
            sheet.Say($"Largest flow of the supply: {amounts.Flow(
                answer.Largest.FlowLpm)} {amounts.FlowUnit}. {zone} is first to fall short. {surveyed}");
            if (answer.Largest.FlowLpm > answer.Curve.LargestMeasuredFlowLpm) sheet.Say(
                $"That is beyond the largest flow measured ({amounts.Flow(answer.Curve.LargestMeasuredFlowLpm)} {amounts.FlowUnit}); the curve was extended.");
        }
    }

    private static void Stored(Sheet sheet, FieldAmounts amounts, Site site, SupplyAnswer answer)
    {
        if (answer.Tank is { } tank)
        {
            sheet.Say(tank.ShortFrom is { } at
                ? (Sentence)$"TANK RUNS SHORT on {SiteWords.Of(site, sheet).Date(at.InZone(site.Zone()).Date)}, by {amounts.Volume(tank.ShortL / 1000)} {amounts.VolumeUnit} over the plan's year: water less on the busiest nights, or refill faster."
                : (Sentence)$"Tank: lowest {amounts.Volume(tank.LowestL / 1000)} {amounts.VolumeUnit} on {SiteWords.Of(site, sheet).Date(tank.LowestAt.InZone(site.Zone()).Date)}; full again after {FieldAmounts.Number(tank.RefillLeft.TotalHours, 1)} h at most.");
        }

        if (answer is { Starts: { } starts, StartsAllowed: { } allowed })
        {
            string perYear = FieldAmounts.Number(starts.PerYear, 0);
            sheet.Say(starts.MostPerHour > allowed
                ? (Sentence)$"Pump: {starts.MostPerHour} starts within an hour at most, {(
                    allowed)} allowed: TOO MANY; let it run on longer, or join the runs. {perYear} starts per year."
                : (Sentence)$"Pump: {starts.MostPerHour} starts within an hour at most, {allowed} allowed. {perYear} starts per year.");
        }
    }

    private static IEnumerable<Sentence> Verdicts(ZoneRunPressure run)
    {
        if (!run.HasEnough) yield return $"TOO LITTLE at {run.LowestAt}";
        if (run.HasTooMuch) yield return $"mist at {run.HighestAt}";
        if (run.IsFast) yield return $"fast in {run.FastestPipe}";
        if (run is { HasEnough: true, HasTooMuch: false, IsFast: false }) yield return "ok";
    }

    /// <summary>What <c>--json</c> prints for a supply.</summary>
    private sealed record SupplyAnswer(
        string Supply, SupplyCurve Curve, ListOf<DoubtfulReading> Doubtful, double LimitOfSurveyLpm, ListOf<ZoneRunPressure> Alone,
            ListOf<ZoneRunPressure> Together, BearableFlow Largest)
    {
        public TankLevel? Tank { get; init; }

        public PumpStarts? Starts { get; init; }

        public int? StartsAllowed { get; init; }

        public bool IsGood => Alone.Concat(Together).All(z => z.HasEnough) && LimitOfSurveyLpm <= Largest.FlowLpm
            && (Tank is null || Tank.Serves) && (Starts is null || Starts.MostPerHour <= StartsAllowed);
    }
}
