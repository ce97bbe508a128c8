using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather.Gaps;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;
using Valvewright.Work;
using Valvewright.Planning.Sensitivity;

namespace Valvewright.Cli.Reports;

/// <summary>What went into a plan, and the plan, as text.</summary>
internal static class PlanPages
{
    /// <summary>The site, and what is to be asked about it.</summary>
    public static void Title(Sheet sheet, SiteFile file)
    {
        Site site = file.Site;
        sheet.Heading(site.Name);
        int zones = site.Controllers.Sum(c => c.Zones.Count);
        sheet.Say($"{Count(site.Controllers.Count, "1 controller", $"{site.Controllers.Count} controllers")}, "
            + $"{Count(zones, "1 zone", $"{zones} zones")}, "
                + $"{Count(site.Supplies.Count, "1 supply", $"{site.Supplies.Count} supplies")}; {site.TimeZone}.");
        foreach (Problem question in file.Questions)
        {
            sheet.Say($"Question: {question.Where}: {question.Message} ({question.Found}; {question.Expected})", 2);
        }
    }

    /// <summary>The weather, and what was assumed: a line a rule, or each with its zones and its reason.</summary>
    public static void Inputs(Sheet sheet, SiteYears years, bool allAssumed)
    {
        Site site = years.Site;
        Weather(sheet, years);
        sheet.Heading("Assumptions (not in the survey)");
        if (site.Assumptions.Count == 0)
        {
            sheet.Say("None.");
        }
        else if (allAssumed)
        {
            foreach (string line in AssumptionLines.Of(site, sheet))
            {
                sheet.Say($"- {line}", 2);
            }
        }
        else
        {
            sheet.Show(AssumptionLines.InShort(site, sheet));
            sheet.Say();
            sheet.Say("--full shows zones and sources.");
        }
    }

    /// <summary>What the water rests on, what moves it most first.</summary>
    public static void MeasureFirst(Sheet sheet, Site site, ListOf<WaterSensitivity> values)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("What to measure first");
        Table table = new("Value", "If it is", $">{words.VolumeUnit} per year", "Measure it with");
        foreach (WaterSensitivity value in values)
        {
            (double low, double high) = WaterSensitivity.RangeOf(value.Factor);
            (Sentence, Func<double, string>, Sentence) row = value.Factor switch
            {
                WaterFactor.Uniformity => ("Uniformity", Points, "a catch-can audit"),
                WaterFactor.Coefficient => ("Plant coefficient", Times, "a season's meter readings"),
                WaterFactor.RootDepth => ("Root depth", Times, "a spade or soil probe"),
                WaterFactor.AllowedDepletion => ("Allowed depletion", Points, "the first sign of wilting"),
                WaterFactor.SoilEvening => ("Soil evening", Points, "a soil moisture probe"),
                WaterFactor.LeafStore => ("Water left on leaves", Depth, "-"),
                _ => ("Weight of unmet use", end => SiteWords.Number(end, 0), "the look you want"),
            };
            (Sentence name, Func<double, string> end, Sentence how) = row;
            table.Row(sheet.In(name), $"{end(low)} / {end(high)}", $"{Change(value.LowM3)} / {Change(value.HighM3)}", sheet.In(how));
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("Change of a mean year's water with each value at both ends of its usual range (rules of thumb, docs/balance.md).");

        string Points(double end) => $"{(end > 0 ? "+" : "-")}{words.Percent(100 * Math.Abs(end), 0)}";
        string Times(double end) => $"x {SiteWords.Number(end, 2)}";
        string Depth(double end) => $"{words.FineDepth(end)} {words.DepthUnit}";
        string Change(double cubicMeters) => (cubicMeters > 0 ? "+" : "") + words.Volume(cubicMeters);
    }

    /// <summary>What each zone needs.</summary>
    public static void Needs(Sheet sheet, Site site, ListOf<ZoneNeed> needs)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("Needs");
        string depth = words.DepthUnit;
        Table table = new("Zone", $">Usable, {depth}", ">Days apart", ">Times per day", ">Cycle, min", ">Soak, min", $">Peak week, {depth}",
            $">Year, {depth}", "Season");
        foreach (IGrouping<string, ZoneNeed> controller in needs.GroupBy(n => n.Controller))
        {
            table.Row(controller.Key, "", "", "", "", "", "", "", "");
            foreach (ZoneNeed need in controller)
            {
                table.Row(
                    $" {need.Station} {need.Zone}",
                    words.FineDepth(need.ReadilyMm.Value),
                    SiteWords.Number(need.LongestGapDays.EightInTen, 0),
                    SiteWords.Number(need.WateringsPerDay.Value, 0),
                    need.LongestCycleSeconds is { } cycle ? $"{cycle / 60}" : sheet.In("any"),
                    need.SoakSeconds > 0 ? $"{(need.SoakSeconds + 59) / 60}" : "-",
                    words.FineDepth(need.PeakWeekMm.Value),
                    words.Depth(need.LeastWaterMm.Mean),
                    need.Season is { } season ? season == PeriodOfYear.WholeYear ? sheet.In("all year")
                        : $"{words.Date(season.From)}-{words.Date(season.To)}" : sheet.In("no irrigation needed"));
            }
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say("Usable: readily available water. Days apart: waterings at peak demand, 8 years in 10. Cycle: longest run without " +
            "runoff. Soak: wait before the next cycle.");
        sheet.Say("Peak week: gross depth, 8 years in 10. Year: minimum water, gross, mean year.");
    }

    /// <summary>What is entered.</summary>
    public static void Programs(Sheet sheet, Site site, Plan plan)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("Programs");
        foreach (ControllerPlan own in plan.Controllers)
        {
            SiteController? controller = site.Controllers.FirstOrDefault(c => c.Name == own.Controller);
            sheet.Say(
                $"{Printable.Of(own.Controller)} ({(controller is null ? words.In("not in the survey") : NameOf(words, controller.Profile))}): {words.Season(own)}", 2);
            foreach (Program program in own.Settings.Programs.OrderBy(p => p.Letter))
            {
                sheet.Say(
                    $"  {program.Letter}  {words.Days(program.Days)}, start {string.Join(", ", program.StartTimes.Order().Select(words.Time))}", 3);
                sheet.Say("     " + string.Join(
                    "; ", program.RunTimes.Select(
                        r => $"{r.Station} {NameOf(sheet, controller, r.Station)} {SiteWords.Duration(r.Seconds)}")
                            .Select(SiteWords.Together)), 0);
            }

            if (own.Settings.Programs.Count == 0)
            {
                sheet.Say($"  {words.In("nothing to enter")}");
            }
        }

        if (site.Controllers.Any(c => !c.Profile.ClockKnowsDaylightSaving && new SiteClock(site.Zone(), c.Profile).SecondsBehind(
            new LocalDate(2026, 1, 1), new LocalDate(2026, 12, 31)).Any(s => s != 0)))
        {
            sheet.Say();
            sheet
                .Say("Times are as shown on the controller. Controllers without automatic daylight saving stay on standard time all year.");
        }
    }

    /// <summary>Zones that get no water, and plants whose stage passes with when to plan without it.</summary>
    public static void ZoneNotes(Sheet sheet, Site site, Plan plan)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        Zone[] dry = [.. site.Controllers.SelectMany(c => c.Zones.Where(z => z.Lasts && plan.For(c.Name).ProgramSets
            .All(set => set.All(p => p.RunTimes.All(r => r.Station != z.Station)))))];
        Zone[] young = [.. site.Controllers.SelectMany(c => c.Zones).Where(z => z.Planting.Stage == PlantStage.Establishing)];
        if (dry.Length + young.Length > 0) sheet.Say();
        if (dry.Length > 0)
        {
            string names = string.Join("; ", dry.Select(z => Printable.Of(z.Name)));
            sheet.Say($"Rain and soil carry {names}: no run time. Water by hand in a drought.");
        }

        foreach (Zone zone in young)
        {
            sheet.Say(zone.Planting.EstablishedBy is { } date
                ? $"{Printable.Of(zone.Name)} counts as new. Plan again on {words.Date(date)}, when it is established."
                : $"{Printable.Of(zone.Name)} counts as new. Plan again when its roots have grown out, with 'established' as " +
                    $"its stage.");
        }
    }

    /// <summary>A built-in profile is named by what it supports; one of the survey's own has a name.</summary>
    private static string NameOf(SiteWords words, Profile profile)
    {
        Sentence supports = $"{profile.Stations} stations, {profile.Programs} programs, {profile.StartTimesPerProgram} starts";
        return profile.Name == supports.Text ? words.In(supports) : profile.Name;
    }

    private static string NameOf(Sheet sheet, SiteController? controller, int station) =>
        controller?.Zones.FirstOrDefault(z => z.Station == station)?.Name ?? sheet.In("(not wired)");

    private static void Weather(Sheet sheet, SiteYears years)
    {
        SiteWords words = SiteWords.Of(years.Site, sheet);
        sheet.Heading("Weather");
        double span = years.Built.Climate.Days / 365.25;
        sheet.Say(years.Weather.Record!.Source);
        sheet.Say(
            $"{years.Built.Climate.First:uuuu-MM-dd} to {years.Built.Climate.Last:uuuu-MM-dd}; per year {words.Depth(years.Built.Climate.EtoMm.Sum() / span)} {words.DepthUnit} of ETo, {words.Depth(years.Built.Climate.RainMm.Sum() / span)} {words.DepthUnit} of rain.");
        if (EtoChoice.Stated(years.Weather.Record.Eto) is { Length: > 0 } stated)
        {
            sheet.Say($"ETo with: {stated}.");
        }

        sheet.Say(years.Split.Explanation);
        if (FrostDates.Of([.. years.Training, .. years.HeldBack]) is { } frost)
        {
            sheet.Say($"Hard frost ({(words.Us ? "28 °F" : "-2.2 °C")} or colder) comes after {words.Date(frost.ShutDown)} in "
                + $"{frost.ShutDownYears} of {frost.Years} years, and is over by {words.Date(frost.StartUp)} in {frost.StartUpYears}. "
                + $"--winter-off {Typed(frost.ShutDown)}..{Typed(frost.StartUp)} makes these two of the visits.", 2);
        }

        foreach (WeatherNote note in years.Weather.Notes.Where(n => n.Kind != WeatherNoteKind.Found))
        {
            sheet.Say($"- {sheet.In(note.Text).TrimEnd('.')}.", 2);
        }

        const int QuestionsShown = 8;
        foreach (Sentence line in GapWords.Lines(years.Built.Questions, QuestionsShown))
        {
            sheet.Say($"- {line}", 2);
        }

        foreach (IGrouping<(WeatherVariable Variable, FillMethod Method), Gap> filled in years.Built.Gaps.Gaps
            .GroupBy(g => (g.Variable, g.Method)).Where(g => g.Key.Method != FillMethod.NotNeeded))
        {
            int days = filled.Sum(g => g.Days);
            sheet.Say($"- {GapWords.Of(filled.Key.Variable)}: {Count(days, "1 day", $"{days} days")} {GapWords.Of(filled.Key.Method)}.", 2);
        }
    }

    private static string Typed(AnnualDate date) => $"{date.Month:00}-{date.Day:00}";

    private static Sentence Count(int number, Sentence one, Sentence many) => number == 1 ? one : many;
}
