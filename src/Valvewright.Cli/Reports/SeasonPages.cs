using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Season;
using Valvewright.Planning;

namespace Valvewright.Cli.Reports;

/// <summary>A season as text.</summary>
internal static class SeasonPages
{
    /// <summary>More visits than these do not fit next to each other.</summary>
    private const int MostColumns = 6;

    /// <summary>The visits, and how good they are.</summary>
    public static void Write(Sheet sheet, Site site, Plan plan, SeasonPlan season)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        VisitDates dates = VisitDates.Of(site, plan);
        sheet.Heading("Percent adjust by visit");
        if (Fits(dates))
        {
            Table(sheet, words, plan, dates, season.Options);
        }
        else
        {
            foreach (ControllerPlan own in plan.Controllers)
            {
                sheet.Say($"{own.Controller}: {words.Season(own)}", 2);
            }
        }

        Seed(sheet, words, site);
        Changes(sheet, words, plan);
        sheet.Say();
        Quality(sheet, words, season);
    }

    /// <summary>Whether the dates fit next to each other.</summary>
    public static bool Fits(VisitDates dates) => dates.All.Count is > 0 and <= MostColumns;

    /// <summary>What to set at each visit; dates that are for new seed only carry a star.</summary>
    public static void Table(Sheet sheet, SiteWords words, Plan plan, VisitDates dates, SeasonOptions? options)
    {
        string Day(AnnualDate date) => SiteWords.Together(
            (options is { OnlyOn.Count: > 0, Year: { } year } ? words.WeekDay(date.InYear(year).DayOfWeek) + " " : "") + words.Date(date))
            + (dates.Once.Contains(date) ? "*" : "");
        Table table = new(["", .. dates.All.Select(d => (Sentence)(">" + Day(d)))]);
        foreach (ControllerPlan own in plan.Controllers)
        {
            table.Row([own.Controller,
                .. dates.All.Select(d => own.Visits.FirstOrDefault(v => v.Date == d) is { } visit ? words.Percent(visit.Percent) : "-")]);
        }

        sheet.Show(table);
        if (dates.Once.Count > 0)
        {
            sheet.Say("* new seed only, once");
        }
    }

    /// <summary>What a visit is worth.</summary>
    public static void Curve(Sheet sheet, Site site, VisitCurve curve)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("How many visits?");
        Table table = new(">Visits", $">Water {words.VolumeUnit}", ">Ratio", ">Use met", $">Cost {words.VolumeUnit}",
            $">Saves {words.VolumeUnit}", "");
        foreach (VisitStep step in curve.Steps)
        {
            table.Row(
                $"{step.Visits}", words.Volume(step.WaterM3), SiteWords.Number(step.WaterRatio, 2), words.Percent(100 * step.UseMet, 1),
                words.Volume(step.CostLitres / 1000), step.SavedLitres is double.NaN ? "-" : words.Volume(step.SavedLitres / 1000),
                    step.Visits == curve.KneeVisits ? sheet.In("<- best value") : "");
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say($"More than {VisitWords.Count(curve.KneeVisits)} per year saves little.");
        sheet.Say("Averages over the planning years. Cost: water plus weighted unmet use. Saves: compared with one visit fewer.");
    }

    /// <summary>The site's adequacy and excess, mean of its zones by area.</summary>
    public static void Adequacy(Sheet sheet, Site site, ProofReport proof)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        double area = proof.Zones.Sum(z => z.AreaM2);
        if (area > 0)
        {
            sheet.Say();
            sheet.Say(
                $"Adequacy {words.Percent(100 * proof.Zones.Sum(z => z.AreaM2 * z.Adequacy) / area, 0)}, excess {words.Percent(100 * proof.Zones.Sum(z => z.AreaM2 * z.Excess) / area, 0)} (SWAT protocol, mean of the zones by area).");
        }
    }

    /// <summary>When new seed needs its own percent.</summary>
    private static void Seed(Sheet sheet, SiteWords words, Site site)
    {
        foreach (SiteController controller in site.Controllers.Where(SeedbedVisits.HasSeedbed))
        {
            ListOf<PeriodOfYear> dates = SeedbedVisits.DatesOf(controller);
            if (dates.Count == 0)
            {
                sheet.Say(
                    $"{controller.Name} waters new seed: it stays at {words.Percent(100)} whenever it is on. Plan again when the seed is established.", 2);
            }

            foreach (PeriodOfYear seeded in dates)
            {
                sheet.Say(
                    $"{controller.Name} waters new seed at {words.Percent(100)} from {words.Date(seeded.From)} (sowing) to {words.Date(seeded.To)}.", 2);
            }
        }
    }

    /// <summary>What visits enter besides the percent.</summary>
    private static void Changes(Sheet sheet, SiteWords words, Plan plan)
    {
        foreach (ControllerPlan own in plan.Controllers.Where(c => c.ChangesPrograms))
        {
            foreach ((Visit visit, ListOf<ProgramChange> changes) in own.Visits.Zip(ProgramChange.ByVisit(own))
                .Where(v => v.Second.Count > 0))
            {
                sheet.Say($"{words.Date(visit.Date)}, {own.Controller}: also set {ChangeWords.Of(changes, sheet.Language)}.", 2);
            }
        }
    }

    private static void Quality(Sheet sheet, SiteWords words, SeasonPlan season)
    {
        string unit = words.VolumeUnit;
        sheet.Say(
            $"Average planning year: {words.Volume(season.WaterM3)} {unit}, minimum {words.Volume(season.MinimumM3)} {unit} (ratio {SiteWords.Number(season.WaterRatio, 2)}); {words.Percent(100 * season.UseMet, 1)} of plant use met.");
        if (season.BoundLitres is { } bound && season.Gap is { } gap)
        {
            sheet.Say(
                $"Cost (water plus weighted unmet use): {words.Volume(season.CostLitres / 1000)} {unit}. With these programs and as many visits, at least {words.Volume(bound / 1000)} {unit} ({words.Percent(100 * gap, 1)} less).");
        }

        switch (season.Options.Goal)
        {
            case Goal.WaterWithin limit when season.WaterM3 > limit.CubicMeters * (1 + 1e-9):
                sheet.Say(
                    $"No schedule of {VisitWords.Count(season.Dates.Count)} was found within {words.Volume(limit.CubicMeters)} {unit} per year.");
                break;
            case Goal.UnmetWithin limit when 1 - season.UseMet > limit.Share + 1e-9:
                sheet.Say(
                    $"No schedule of {VisitWords.Count(season.Dates.Count)} leaves as little as {words.Percent(100 * limit.Share, 1)} of the use unmet. This one comes nearest.");
                break;
        }

        if (season.ShortLitres > 0)
        {
            sheet.Say("Some zones may get less than their goal in a harder year. See the proof.");
        }

        if (season.Controllers.Any(c => c.Percents.Contains(0)))
        {
            sheet.Say("Off does not protect pipes from frost. Where they freeze, drain them or have them blown out: a trained person, " +
                "eye protection, the pressure that the maker of the sprinklers allows, never near valves or heads.");
        }
    }
}
