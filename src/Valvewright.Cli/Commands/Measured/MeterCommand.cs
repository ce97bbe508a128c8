using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Measured;
using Valvewright.Files.Plans;
using Valvewright.Work.Measured;

namespace Valvewright.Cli.Commands.Measured;

/// <summary>Water meter readings against what the timeline should have used.</summary>
internal static class MeterCommand
{
    public static Job Make()
    {
        MeasuredArguments arguments = new();
        Option<string?> plan = new("--plan")
            { Description = "The saved plan that was running. Default: out/plan.json next to the site file.", HelpName = "file" };
        Job job = new(
            "meter",
            "Compare water meter readings with what the timeline should have used: leaks, stuck valves, misreadings.",
            "valvewright meter demo/polder-green");
        arguments.AddTo(job);
        job.Options.Add(plan);
        return job.Does((parse, sheet, cancel) => Run(arguments, parse, parse.GetValue(plan), sheet, cancel));
    }

    private static int Run(MeasuredArguments arguments, ParseResult parse, string? planFile, Sheet sheet, CancellationToken cancel)
    {
        SiteFile file = SiteFile.Read(arguments.SitePath(parse));
        Site site = file.Site;
        sheet.Heading($"{site.Name}: water meters");
        MeasuredSite measured = arguments.Read(parse, file, sheet);
        MeasuredArguments.Caution(sheet, FieldCaution.ForMeter);
        SavedPlan saved = file.ReadPlan(planFile);
        if (!saved.IsFor(site)) sheet.Say("The survey has changed since this plan was made.");
        List<MeterAnswer> answers = [];
        foreach (MeasuredMeter meter in measured.Meters)
        {
            cancel.ThrowIfCancellationRequested();
            MeterForecast forecast = MeterForecast.Of(site, saved.Plan, meter);
            answers.Add(new MeterAnswer(meter.Supply, forecast.Intervals, forecast.LargestFlowLpm));
        }

        FieldAmounts amounts = FieldAmounts.Of(site, sheet);
        foreach (MeterAnswer answer in answers) Show(sheet, amounts, site, answer);
        if (answers.Count == 0) sheet.Say("No meter was read. Add 'meters:' to the file of measurements.");
        sheet.Answer(answers.ToListOf());
        return answers.All(a => a.Intervals.All(i => !i.IsAlarm)) ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static void Show(Sheet sheet, FieldAmounts amounts, Site site, MeterAnswer answer)
    {
        sheet.Heading(answer.Supply);
        Table table = new("from", "to", $">used {amounts.VolumeUnit}", ">expected", ">room +-", "verdict");
        foreach (MeterInterval interval in answer.Intervals)
        {
            table.Row(
                Date(site, interval.From), Date(site, interval.To), amounts.Volume(interval.UsedM3), amounts.Volume(interval.ExpectedM3),
                amounts.Volume(2 * interval.RoomM3), sheet.In(Verdict(amounts, site, interval, answer.LargestFlowLpm)));
        }

        sheet.Show(table);
        sheet.Say("Expected: what the timeline should have used, on the scale that the first quiet readings taught.");
        sheet.Say("Room: twice the usual scatter.");
    }

    private static Sentence Verdict(FieldAmounts amounts, Site site, MeterInterval interval, double largestLpm) => interval.Verdict switch
    {
        MeterVerdict.Leak =>
            (Sentence)$"LEAK of {FieldAmounts.Number(interval.LitersPerHour, 0)} L/h ({amounts.Percent(
                interval.LitersPerHour / 60 / largestLpm)} of the largest zone) since {Since(site, interval)}",
        MeterVerdict.TooMuch =>
            (Sentence)$"TOO MUCH by {amounts.Volume(interval.ExcessM3)} {amounts.VolumeUnit}: a valve that stuck open or a new leak, {Since(
                site, interval)}. As much as the largest zone gives in {FieldAmounts.Number(
                interval.ExcessM3 * 1000 / largestLpm / 60, 1)} h",
        MeterVerdict.TooLittle =>
            (Sentence)$"TOO LITTLE by {amounts.Volume(
                -interval.ExcessM3)} {amounts.VolumeUnit}: a station that does not open, or a closed valve",
        MeterVerdict.Misread => (Sentence)$"MISREAD on {Since(site, interval)}: the intervals before and after cancel out. Read again",
        _ => "as expected",
    };

    private static Sentence Since(Site site, MeterInterval interval)
    {
        if (interval.Since is not { } since) return "";
        (string from, string to) = (Date(site, since.Start), Date(site, since.End));
        return from == to ? (Sentence)$"{from}" : (Sentence)$"{from} to {to}";
    }

    private static string Date(Site site, Instant at) => LocalDatePattern.Iso.Format(at.InZone(site.Zone()).Date);

    /// <summary>What <c>--json</c> prints for a meter.</summary>
    private sealed record MeterAnswer(string Supply, ListOf<MeterInterval> Intervals, double LargestFlowLpm);
}
