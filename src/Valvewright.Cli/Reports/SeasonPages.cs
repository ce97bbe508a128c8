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
    /// <summary>More visits than these do not fit beside each other.</summary>
    private const int MostColumns = 6;

    /// <summary>Changed zones beyond these are only counted.</summary>
    private const int MostChanges = 12;

    /// <summary>The visits, and how good they are.</summary>
    public static void Write(Sheet sheet, Site site, Plan plan, SeasonPlan season)
    {
        sheet.Heading($"The season in {VisitWords.Count(season.Dates.Count)}");
        Visits(sheet, plan, season);
        foreach (SiteController controller in site.Controllers.Where(SeedbedVisits.HasSeedbed))
        {
            ListOf<PeriodOfYear> dates = SeedbedVisits.DatesOf(controller);
            sheet.Say(dates.Count == 0
                ? $"{controller.Name} waters a seedbed: it stays at 100 % whenever it is on. Plan anew when the seedbed has become a lawn."
                : $"{controller.Name} waters a seedbed: 100 % from {string.Join(" and ", dates.Select(d => $"{SiteWords.Date(d.From)} to {SiteWords.Date(d.To)}"))}, set at sowing and when it has become a lawn. These two visits are beside those of the season.", 2);
        }

        ListOf<AnnualDate> idle = Idle(plan);
        if (idle.Count > 0)
        {
            sheet.Say($"On {string.Join(" and ", idle.Select(d => SiteWords.Together(SiteWords.Date(d))))} no percent changes: nobody need drive out for that.");
        }

        Changes(sheet, plan);
        sheet.Say();
        Quality(sheet, SiteWords.Of(site), season);
    }

    /// <summary>What visits key in beside the percent.</summary>
    private static void Changes(Sheet sheet, Plan plan)
    {
        foreach (ControllerPlan own in plan.Controllers.Where(c => c.ChangesPrograms))
        {
            foreach ((Visit visit, ListOf<ProgramChange> changes) in own.Visits.Zip(ProgramChange.ByVisit(own)).Where(v => v.Second.Count > 0))
            {
                int settings = changes.Sum(c => c.Settings);
                sheet.Say($"On {SiteWords.Together(SiteWords.Date(visit.Date))} also key into {own.Controller}: {ChangeWords.Of(changes)} ({settings} {(settings == 1 ? "setting" : "settings")}).", 2);
            }
        }
    }

    /// <summary>What a visit is worth.</summary>
    public static void Curve(Sheet sheet, Site site, VisitCurve curve)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("What a visit is worth");
        Table table = new(">visits", $">water {words.VolumeUnit}", ">ratio", ">use met", $">cost {words.VolumeUnit}", $">saves {words.VolumeUnit}", "");
        foreach (VisitStep step in curve.Steps)
        {
            table.Row(
                $"{step.Visits}", words.Volume(step.WaterM3), SiteWords.Number(step.WaterRatio, 2), $"{SiteWords.Number(100 * step.UseMet, 1)}%",
                words.Volume(step.CostLitres / 1000), step.SavedLitres is double.NaN ? "-" : words.Volume(step.SavedLitres / 1000), step.Visits == curve.KneeVisits ? "<- the knee" : "");
        }

        sheet.Show(table);
        sheet.Say();
        string beyond = curve.StepOf(curve.KneeVisits + 1) is { } next ? $" {Worth(words, next)}" : "";
        sheet.Say($"Beyond {VisitWords.Count(curve.KneeVisits)} the curve flattens.{beyond}");
        sheet.Say("Mean year of those planned with. cost: water plus weighed unmet use. saves: of that, compared with one visit fewer.");
    }

    /// <summary>"A fifth visit saves 3 m3 a year and 0.2 stress days."</summary>
    public static string Worth(SiteWords words, VisitStep step)
    {
        string water = $"{(step.WaterSavedM3 >= 0 ? "saves" : "costs")} {words.Volume(Math.Abs(step.WaterSavedM3))} {words.VolumeUnit} per year";
        string met = Math.Abs(step.UseMetGained) < 0.0005 ? "" : $" and meets {SiteWords.Number(100 * Math.Abs(step.UseMetGained), 1)}% {(step.UseMetGained > 0 ? "more" : "less")} of the plants' use";
        return $"{VisitWords.Another(step.Visits)} {water}{met}.";
    }

    /// <summary>The site's adequacy and excess, mean of its zones by area.</summary>
    public static void Adequacy(Sheet sheet, ProofReport proof)
    {
        double area = proof.Zones.Sum(z => z.AreaM2);
        if (area > 0)
        {
            sheet.Say();
            sheet.Say($"Adequacy {SiteWords.Number(100 * proof.Zones.Sum(z => z.AreaM2 * z.Adequacy) / area, 0)} %, excess {SiteWords.Number(100 * proof.Zones.Sum(z => z.AreaM2 * z.Excess) / area, 0)} % (SWAT protocol, mean of the zones by area).");
        }
    }

    /// <summary>Visits at which every controller stays at the percent that it had.</summary>
    public static ListOf<AnnualDate> Idle(Plan plan)
    {
        AnnualDate[] dates = [.. plan.Controllers.SelectMany(c => c.Visits).Select(v => v.Date).Distinct().Order()];
        return dates.Where(d => plan.Controllers.All(c =>
        {
            Visit[] own = [.. c.Visits.OrderBy(v => v.Date)];
            int at = Array.FindIndex(own, v => v.Date == d);
            return at < 0 || own[at].Percent == own[(at + own.Length - 1) % own.Length].Percent;
        })).ToListOf();
    }

    private static void Visits(Sheet sheet, Plan plan, SeasonPlan season)
    {
        AnnualDate[] dates = [.. plan.Controllers.SelectMany(c => c.Visits).Select(v => v.Date).Distinct().Order()];
        if (dates.Length > MostColumns)
        {
            foreach (ControllerPlan own in plan.Controllers)
            {
                sheet.Say($"{own.Controller}: {SiteWords.Season(own)}", 2);
            }

            return;
        }

        Table table = new(["set on", .. dates.Select(d => ">" + SiteWords.Together(Day(d, season.Options)))]);
        foreach (ControllerPlan own in plan.Controllers)
        {
            table.Row([own.Controller, .. dates.Select(d => own.Visits.FirstOrDefault(v => v.Date == d) is { } visit ? visit.Percent == 0 ? "off" : $"{visit.Percent} %" : "-")]);
        }

        sheet.Show(table);
    }

    private static string Day(AnnualDate date, SeasonOptions options) =>
        options.OnlyOn.Count > 0 && options.Year is { } year ? $"{date.InYear(year).DayOfWeek.ToString()[..3]} {SiteWords.Date(date)}" : SiteWords.Date(date);

    private static void Quality(Sheet sheet, SiteWords words, SeasonPlan season)
    {
        string unit = words.VolumeUnit;
        sheet.Say($"In a mean year of those planned with: {words.Volume(season.WaterM3)} {unit}, minimum {words.Volume(season.MinimumM3)} {unit} (ratio {SiteWords.Number(season.WaterRatio, 2)}); {SiteWords.Number(100 * season.UseMet, 1)}% of plant use met.");
        if (season.BoundLitres is { } bound && season.Gap is { } gap)
        {
            sheet.Say($"Water plus weighed unmet use: {words.Volume(season.CostLitres / 1000)} {unit}. With these programs and as many visits, no season costs less than {words.Volume(bound / 1000)} {unit} ({SiteWords.Number(100 * gap, 1)}% below).");
        }

        switch (season.Options.Goal)
        {
            case Goal.WaterWithin limit when season.WaterM3 > limit.CubicMeters * (1 + 1e-9):
                sheet.Say($"No season of {VisitWords.Count(season.Dates.Count)} was found within {words.Volume(limit.CubicMeters)} {unit} per year.");
                break;
            case Goal.UnmetWithin limit when 1 - season.UseMet > limit.Share + 1e-9:
                sheet.Say($"No season of {VisitWords.Count(season.Dates.Count)} leaves as little as {SiteWords.Number(100 * limit.Share, 1)}% of the use unmet. This one comes nearest.");
                break;
        }

        if (season.ShortLitres > 0)
        {
            sheet.Say("Some zones may get less than their goal in a harder year. See the proof.");
        }
    }
}
