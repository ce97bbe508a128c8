using System.CommandLine;
using System.Globalization;
using System.Text;
using NodaTime.Text;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Controllers;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Timelines;
using Valvewright.Files.Timelines.Pictures;
using Valvewright.Work;

namespace Valvewright.Cli.Commands;

/// <summary>What a saved plan's controllers open and close, when.</summary>
internal static class TimelineCommand
{
    private const int UsualDays = 14;
    private const int MostDays = 800;

    public static Job Make()
    {
        Argument<string> site = SiteArguments.Site();
        Option<string?> plan = new("--plan")
            { Description = "The saved plan. Default: out/plan.json next to the site file.", HelpName = "file" };
        Option<string?> controller = new("--controller") { Description = "One controller only.", HelpName = "name" };
        Option<LocalDate?> from = SiteArguments.From("First date. Default: today at the site, or the plan's first date if later.");
        Option<LocalDate?> to = SiteArguments.Date("--to", $"Last date. Default: {UsualDays} days in all.");
        Option<LocalDate?> on = SiteArguments.Date("--on", "One date only.");
        Option<int?> next = new("--next-station")
            { Description = "When this station runs next, from the first date on.", HelpName = "number" };
        Option<string?> water = new("--water-in") { Description = "Water from each supply in this month.", HelpName = "yyyy-mm" };
        Option<string?> calendar = new("--calendar") { Description = "Write an iCalendar file.", HelpName = "file.ics" };
        Option<string?> csv = new("--csv") { Description = "Write a table of comma-separated values.", HelpName = "file.csv" };
        Option<string?> svg = new("--svg")
            { Description = $"Draw the dates, {TimelinePicture.MostDays} at most, as an SVG picture.", HelpName = "file.svg" };
        Option<string?> png = new("--png") { Description = "The same as a PNG picture.", HelpName = "file.png" };
        Option<LocalDate?> dry = SiteArguments.Date("--dry",
            "A date without water, such as a wedding: what to set before and after.");
        GivenPrograms given = new();
        WhatBefalls befalls = new();
        Job job = new(
            "timeline",
            "Show what runs when under a saved plan.",
            "valvewright timeline demo/quarry-hill",
            "valvewright timeline demo/quarry-hill --on 2026-08-01",
            "valvewright timeline demo/quarry-hill --next-station 3",
            "valvewright timeline demo/quarry-hill --water-in 2026-07",
            "valvewright timeline demo/quarry-hill --from 2026-01-01 --to 2026-12-31 --calendar watering.ics",
            "valvewright timeline demo/quarry-hill --svg fortnight.svg --png fortnight.png",
            "valvewright timeline demo/quarry-hill --off 2026-07-01..2026-07-05 --manual 2026-07-03T10:00,2,10",
            "valvewright timeline demo/quarry-hill --dry 2026-07-18",
            "valvewright timeline demo/quarry-hill --controller Gate --from-reading reading.txt");
        job.Arguments.Add(site);
        foreach (Option option in new Option[] { plan, given.Option, controller, from, to, on, next, water, dry, calendar, csv, svg, png }
            .Concat(befalls.Options))
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, cancel) =>
        {
            Question question = new(
                Known(parse, given, parse.GetValue(site)!, parse.GetValue(plan), parse.GetValue(controller), parse.GetValue(on)
                    ?? parse.GetValue(from), sheet),
                parse.GetValue(controller),
                parse.GetValue(on) ?? parse.GetValue(from),
                parse.GetValue(on) ?? parse.GetValue(to));
            question = question with { Befalls = befalls.Read(parse, question.Plan.Site, question.Controller) };
            cancel.ThrowIfCancellationRequested();
            return (parse.GetValue(next), parse.GetValue(water), parse.GetValue(dry)) switch
            {
                (int station, _, _) => Next(question, station, sheet),
                (_, string month, _) => Water(question, month, sheet),
                (_, _, LocalDate date) => Dry(question, date, sheet),
                _ => Show(
                    question,
                    [
                        (parse.GetValue(calendar), (_, w) => Encoding.UTF8.GetBytes(TimelineCalendar.Write(w, sheet.Language))),
                        (parse.GetValue(csv), (_, w) => Encoding.UTF8.GetBytes(TimelineCsv.Write(w, sheet.Language))),
                        (parse.GetValue(svg), (s, w) => Encoding.UTF8.GetBytes(TimelinePicture.Svg(s, w, sheet.Language))),
                        (parse.GetValue(png), (s, w) => TimelinePicture.Png(s, w, sheet.Language)),
                    ],
                    sheet),
            };
        });
    }

    private static KnownPlan Known(ParseResult parse, GivenPrograms given, string path, string? planFile, string? controller,
        LocalDate? from, Sheet sheet)
    {
        SiteFile file = SiteFile.Read(path);
        Site site = file.Site;
        SavedPlan saved;
        if (given.AreIn(parse))
        {
            StandingPrograms standing = given.Read(parse, file, planFile);
            GivenPrograms.Say(sheet, standing);
            saved = SavedPlan.Of(site, standing.Plan, from is { } first && first < file.Today ? first : file.Today);
        }
        else
        {
            saved = file.ReadPlan(planFile);
        }

        if (controller is not null && site.Controllers.All(c => c.Name != controller))
        {
            string[] names = [.. site.Controllers.Select(c => c.Name)];
            throw new ProblemsException(new Problem(
                "--controller", 0, 0, controller, string.Join(", ", names), NearestWord.To(controller, names),
                    "the site has no controller of this name"));
        }

        file.RequireKeyable(saved, planFile);
        if (!saved.IsFor(site))
        {
            sheet.Say("The survey changed after this plan was made; zones and flows are those of the current survey.");
        }

        return new KnownPlan(file, saved);
    }

    private static int Show(Question question, (string? File, Func<Site, SiteWaterings, byte[]> Write)[] files, Sheet sheet)
    {
        LocalDate from = question.From;
        LocalDate to = question.To ?? from.PlusDays(UsualDays - 1);
        if (to < from || Period.DaysBetween(from, to) >= MostDays)
        {
            throw new ProblemsException(new Problem(
                "--to", 0, 0, LocalDatePattern.Iso.Format(to), $"a date from {LocalDatePattern.Iso.Format(from)} to {MostDays} days on",
                    null, "the dates do not follow each other, or are too far apart"));
        }

        bool draws = files[2].File is not null || files[3].File is not null;
        if (draws && Period.DaysBetween(from, to) >= TimelinePicture.MostDays)
        {
            throw new ProblemsException(new Problem(
                "--to", 0, 0, LocalDatePattern.Iso.Format(to), $"{TimelinePicture.MostDays} days at most", null,
                    "too many days for a picture"));
        }

        SiteWaterings waterings = SiteWaterings.Of(question.Plan.Site, question.Plan.Saved.Plan, from, to, question.Controller,
            question.Befalls, question.Plan.Saved.From);
        if (from < question.Plan.Saved.From)
        {
            sheet.Say($"The plan starts on {LocalDatePattern.Iso.Format(question.Plan.Saved.From)}; earlier dates are empty.");
        }

        // All are made before the first is written.
        WholeFiles[] made =
        [
            .. files.Where(f => f.File is not null).Select(f =>
                new WholeFiles(Path.GetDirectoryName(f.File) is { Length: > 0 } folder ? folder : ".")
                    .Add(Path.GetFileName(f.File)!, f.Write(question.Plan.Site, waterings))),
        ];
        foreach (WholeFiles file in made)
        {
            file.Write();
        }

        sheet.Answer(waterings);
        TimelinePages.Write(sheet, question.Plan.Site, waterings, everyRun: made.Length == 0);
        foreach ((string? file, _) in files.Where(f => f.File is not null))
        {
            sheet.Say($"Written: {file}");
        }

        return ExitCode.Done;
    }

    private static int Next(Question question, int station, Sheet sheet)
    {
        Site site = question.Plan.Site;
        int most = site.Controllers.Where(c => question.Controller is null || c.Name == question.Controller).Max(c => c.Profile.Stations);
        if (station < 1 || station > most)
        {
            throw new ProblemsException(new Problem(
                "--next-station", 0, 0, station.ToString(CultureInfo.InvariantCulture), $"a station from 1 to {most}", null,
                    "unknown station"));
        }

        ListOf<Watering> next = TimelineQuestions.NextOf(site, question.Plan.Saved.Plan, station, question.From, question.Controller,
            question.Befalls, question.Plan.Saved.From);
        sheet.Answer(next);
        TimelinePages.Next(sheet, site, station, question.From, next);
        return next.Count > 0 ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static int Water(Question question, string text, Sheet sheet)
    {
        ParseResult<YearMonth> month = YearMonthPattern.Iso.Parse(text);
        if (!month.Success || month.Value.Year is < 1901 or > 2199)
        {
            throw new ProblemsException(
                new Problem("--water-in", 0, 0, text, "a month as 2026-07, of the years 1901 to 2199", null, "not a month"));
        }

        ListOf<MonthOfWater> water = TimelineQuestions.WaterIn(question.Plan.Site, question.Plan.Saved.Plan, month.Value,
            question.Controller, question.Befalls, question.Plan.Saved.From);
        sheet.Answer(water);
        TimelinePages.Water(sheet, question.Plan.Site, month.Value, water);
        return ExitCode.Done;
    }

    private static int Dry(Question question, LocalDate date, Sheet sheet)
    {
        ListOf<DayWithoutWater> days = DayWithoutWater.Of(question.Plan.Site, question.Plan.Saved.Plan, date, question.Controller);
        sheet.Answer(days);
        TimelinePages.Dry(sheet, question.Plan.Site, date, days);
        return ExitCode.Done;
    }

    private sealed record KnownPlan(SiteFile File, SavedPlan Saved)
    {
        public Site Site => File.Site;
    }

    /// <summary>What was asked, of which plan.</summary>
    private sealed record Question(KnownPlan Plan, string? Controller, LocalDate? AskedFrom, LocalDate? To)
    {
        /// <summary>What befalls the controllers besides; null: nothing.</summary>
        public Func<SiteController, Circumstances, Circumstances>? Befalls { get; init; }

        public LocalDate From => AskedFrom ?? LocalDate.Max(Plan.Saved.From, Plan.File.Today);
    }
}
