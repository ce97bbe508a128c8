using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
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

    /// <summary>What changed in the programs once the season's percents were known.</summary>
    public static void Rounds(Sheet sheet, Site site, ListOf<SeasonRound> rounds)
    {
        SiteWords words = SiteWords.Of(site);
        if (rounds.Count < 2)
        {
            sheet.Say("Under these percents the same programs are best.");
            return;
        }

        sheet.Say("Programs were chosen anew under these percents, and the season for them:");
        SeasonRound best = rounds[0];
        foreach (SeasonRound round in rounds.Skip(1))
        {
            string change = $"{words.Volume(round.Season.CostLitres / 1000)} {words.VolumeUnit} in place of {words.Volume(best.Season.CostLitres / 1000)}";
            sheet.Say($"- with {SiteWords.Number(round.StressToleratedDays, 2)} stress days tolerated: {change}{(round.IsBetter ? "" : ", not kept")}.", 2);
            best = round.IsBetter ? round : best;
        }

        string[] changes = [.. Changes(site, rounds[0].Plan, best.Plan)];
        foreach (string change in changes.Take(MostChanges))
        {
            sheet.Say($"  {change}", 4);
        }

        if (changes.Length > MostChanges)
        {
            sheet.Say($"  and {changes.Length - MostChanges} more zones.");
        }
    }

    private static IEnumerable<string> Changes(Site site, Plan before, Plan after) =>
        from controller in site.Controllers
        from zone in controller.Zones
        let was = Watered(before, controller.Name, zone.Station)
        let now = Watered(after, controller.Name, zone.Station)
        where was != now
        select $"{controller.Name}, {zone.Name}: {now}; was {was}";

    private static string Watered(Plan plan, string controller, int station) => string.Join(" and ", plan.For(controller).Settings.Programs
        .Where(p => p.RunTimes.Any(r => r.Station == station))
        .Select(p => $"{Interval(p.Days)}, {p.StartTimes.Count} x {SiteWords.Duration(p.RunTimes.First(r => r.Station == station).Seconds)}"));

    /// <summary>Where intervals count from is no matter here.</summary>
    private static string Interval(DayRule? days) => days is EveryNDays { Days: > 1 } every ? $"every {every.Days} days" : SiteWords.Days(days);

    /// <summary>What a visit is worth.</summary>
    public static void Curve(Sheet sheet, Site site, VisitCurve curve)
    {
        SiteWords words = SiteWords.Of(site);
        sheet.Heading("What a visit is worth");
        Table table = new(">visits", $">water {words.VolumeUnit}", ">ratio", ">stress days", $">weighed {words.VolumeUnit}", $">saves {words.VolumeUnit}", "");
        foreach (VisitStep step in curve.Steps)
        {
            table.Row(
                $"{step.Visits}", words.Volume(step.WaterM3), SiteWords.Number(step.WaterRatio, 2), SiteWords.Number(step.StressDays, 2),
                words.Volume(step.CostLitres / 1000), step.SavedLitres is double.NaN ? "-" : words.Volume(step.SavedLitres / 1000), step.Visits == curve.KneeVisits ? "<- the knee" : "");
        }

        sheet.Show(table);
        sheet.Say();
        string beyond = curve.StepOf(curve.KneeVisits + 1) is { } next ? $" {Worth(words, next)}" : "";
        sheet.Say($"Beyond {VisitWords.Count(curve.KneeVisits)} a year the curve flattens.{beyond}");
        sheet.Say($"Figures of a mean year of those that the season was chosen with, for visits that set the percent alone. weighed: water, and stress at its weight in water; what was made least. saves: of that, against one visit fewer.");
    }

    /// <summary>"A fifth visit saves 3 m3 a year and 0.2 stress days."</summary>
    public static string Worth(SiteWords words, VisitStep step)
    {
        string water = $"{(step.WaterSavedM3 >= 0 ? "saves" : "costs")} {words.Volume(Math.Abs(step.WaterSavedM3))} {words.VolumeUnit} a year";
        string stress = Math.Abs(step.StressSavedDays) < 0.005 ? "" : $" and {(step.StressSavedDays > 0 ? "spares" : "adds")} {SiteWords.Number(Math.Abs(step.StressSavedDays), 2)} stress days";
        return $"{VisitWords.Another(step.Visits)} {water}{stress}.";
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
        string years = season.Options.Aim switch
        {
            SeasonAim.EightYearsInTen => "what 8 years in 10 do not exceed",
            SeasonAim.WorstYear => "the worst year",
            _ => "a mean year",
        };
        sheet.Say($"Over the years it was chosen with: {words.Volume(season.WaterM3)} {unit} a year, least possible {words.Volume(season.LeastM3)} {unit} (ratio {SiteWords.Number(season.WaterRatio, 2)}), {SiteWords.Number(season.StressDays, 2)} stress days.");
        string found = season.Options.MostWaterM3 is not null ? " (found so that the water is enough)" : season.Options.MostStressDays is null ? "" : " (found so that stress stays within what is borne)";
        sheet.Say($"One stress day weighs {words.SmallDepth(season.Options.StressWeightMm)} of water over its zone{found}; so weighed, {years} costs {words.Volume(season.CostLitres / 1000)} {unit}.");
        if (season.BoundLitres is { } bound && season.Gap is { } gap)
        {
            sheet.Say($"No season of as many visits on the same possible days costs less than {words.Volume(bound / 1000)} {unit}: this one is within {SiteWords.Number(100 * gap, 1)} % of it.");
        }

        if (season.LeastStressDaysWithinWater is { } leastStress && season.Options.MostWaterM3 is { } there)
        {
            sheet.Say(season.WaterM3 > there * (1 + 1e-9)
                ? $"No season of {VisitWords.Count(season.Dates.Count)} was found within {words.Volume(there)} {unit} a year."
                : $"No such season within {words.Volume(there)} {unit} a year has less than {SiteWords.Number(leastStress, 2)} stress days.");
        }

        if (season.UnseenStressDays is { } unseen && season.LeastWithinStressM3 is { } least)
        {
            sheet.Say($"In years it was not chosen with, {SiteWords.Number(unseen, 2)} stress days are to be expected (found by leaving years out). No such season that keeps to {SiteWords.Number(season.Options.MostStressDays!.Value, 2)} in the years known uses less than {words.Volume(least)} {unit}.");
        }

        if (season.PercentsAlone is { } alone)
        {
            sheet.Say($"The {season.KeyedSettings} settings keyed in a year beside the percents weigh {words.Volume(season.KeyedSettings * season.Options.SettingWorthLitres / 1000)} {unit} of that. Percents alone would cost {words.Volume(alone.CostLitres / 1000)} {unit}: {words.Volume(alone.WaterM3)} {unit} of water and {SiteWords.Number(alone.StressDays, 2)} stress days; the changes save {words.Volume((alone.CostLitres - season.CostLitres) / 1000)} {unit} beyond what keying them is worth.");
        }
        else if (season.Options.ProgramChanges)
        {
            sheet.Say($"No change of programs at a visit saves what keying it is worth ({words.Volume(season.Options.SettingWorthLitres / 1000)} {unit} a year for each setting).");
        }

        if (season.Options.MostStressDays is { } most && season.StressDays > most)
        {
            sheet.Say($"No season of {VisitWords.Count(season.Dates.Count)} keeps stress within {SiteWords.Number(most, 2)} days a year; this one comes nearest.");
        }
    }
}
