using NodaTime;
using Valvewright.App.Pages.Proof;
using Valvewright.App.Parts;
using Valvewright.App.Texts;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Year;

/// <summary>Pictures of a season: what visits are worth, and the year week by week.</summary>
public static class SeasonCharts
{
    private const int DaysInAWeek = 7;

    /// <summary>Any year without a 29th of February will do: weeks have no year of their own.</summary>
    private const int AnyYear = 2001;

    /// <summary>What can be seen in the curve: where its knee is, and where the season itself stands.</summary>
    public static string Knee(VisitCurve curve, int visits, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        VisitStep knee = curve.StepOf(curve.KneeVisits)!;
        string first = words.Fill("year.knee", ("visits", words.Count("year.n", curve.KneeVisits)), ("water", say.Volume(knee.WaterM3)),
            ("met", words.Share(knee.UseMet)));
        string own = visits == curve.KneeVisits ? words["year.knee.here"]
            : words.Count(visits < curve.KneeVisits ? "year.knee.fewer" : "year.knee.more", visits);
        return $"{first} {own}";
    }

    /// <summary>Water of a mean year against the number of visits.</summary>
    public static Chart Water(VisitCurve curve, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        VisitStep first = curve.Steps[0], last = curve.Steps[^1];
        return Curve(
            curve, words["year.curve.water"], words.Fill("year.curve.water.says", ("first", say.Volume(first.WaterM3)),
                ("last", say.Volume(last.WaterM3)), ("n", first.Visits), ("m", last.Visits)),
            say.VolumeUnit, s => say.VolumeNumber(s.WaterM3), words,
            [words["year.curve.visits"], words["proof.water"], words["proof.ratio"], words["year.curve.saved"]],
            s => [$"{s.Visits}", say.Volume(s.WaterM3), SiteWords.Number(s.WaterRatio, 2),
                double.IsNaN(s.WaterSavedM3) ? "–" : say.Volume(s.WaterSavedM3)]);
    }

    /// <summary>The part of the use that is met against the number of visits.</summary>
    public static Chart UseMet(VisitCurve curve, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(words);
        VisitStep first = curve.Steps[0], last = curve.Steps[^1];
        return Curve(
            curve, words["year.curve.met"],
            words.Fill("year.curve.met.says", ("first", words.Share(first.UseMet)), ("last", words.Share(last.UseMet)), ("n", first.Visits),
                ("m", last.Visits)),
            words["year.curve.percent"], s => 100 * s.UseMet, words, [words["year.curve.visits"], words["proof.met"]],
            s => [$"{s.Visits}", words.Share(s.UseMet)]);
    }

    /// <summary>Need by week, and where the water comes from.</summary>
    public static Chart Weeks(YearOfWater year, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        ListOf<double> from = Begins(year), to = from.Select(d => d + DaysInAWeek).ToListOf();
        ListOf<double> Series(Func<WeekOfWater, double> mm) => year.Weeks.Select(w => Math.Round(say.DepthNumber(mm(w)), 4)).ToListOf();
        return new Chart(
            words["year.weeks.title"],
            words.Fill("year.weeks.says", ("need", say.LargeDepth(year.Weeks.Sum(w => w.NeedMm))),
                ("rain", say.LargeDepth(year.Weeks.Sum(w => w.RainMm))), ("water", say.LargeDepth(year.Weeks.Sum(w => w.WaterMm)))), "",
            words.Fill("soil.weeks.unit", ("unit", say.DepthUnit)),
            [
                new Layer(LayerKind.Bars, words["year.waterOnRain"], 2, from, Series(w => w.RainMm + w.WaterMm)) { X2 = to },
                new Layer(LayerKind.Bars, words["year.rain"], 1, from, Series(w => w.RainMm)) { X2 = to },
                new Layer(LayerKind.Steps, words["soil.need"], 4, from, Series(w => w.NeedMm)),
            ],
            Table(year, [words["soil.week"], words["soil.need"], words["year.rain"], words["year.given"]], say, w =>
                [say.Depth(w.NeedMm), say.Depth(w.RainMm), say.Depth(w.WaterMm)]))
        {
            Across = Across.Date,
            Months = SoilCharts.Months(words),
            Shape = 0.35,
        };
    }

    /// <summary>How full the store is that plants use freely, mean and in the driest tenth.</summary>
    public static Chart Store(YearOfWater year, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        ListOf<double> from = Begins(year);
        int driest = Enumerable.Range(0, year.Weeks.Count).MinBy(w => year.Weeks[w].DryStorePercent);
        return new Chart(
            words["year.store"],
            words.Fill("year.store.says", ("percent", SiteWords.Number(year.Weeks[driest].DryStorePercent, 0)),
                ("date", say.Date(DateOf(year, driest)))), "", "%",
            [
                new Layer(LayerKind.Line, words["year.store.mean"], 1, from,
                    year.Weeks.Select(w => Math.Round(w.StorePercent, 1)).ToListOf()),
                new Layer(LayerKind.Line, words["year.store.dry"], 2, from,
                    year.Weeks.Select(w => Math.Round(w.DryStorePercent, 1)).ToListOf()),
            ],
            Table(year, [words["soil.week"], words["year.store.mean"], words["year.store.dry"]], say, w =>
                [words.Percent(SiteWords.Number(w.StorePercent, 0)), words.Percent(SiteWords.Number(w.DryStorePercent, 0))]))
        {
            Across = Across.Date,
            Months = SoilCharts.Months(words),
            Shape = 0.3,
        };
    }

    private static Chart Curve(
        VisitCurve curve, string title, string says, string unit, Func<VisitStep, double> value, PageWords words, ListOf<string> heads,
            Func<VisitStep, ListOf<string>> row)
    {
        ListOf<double> x = curve.Steps.Select(s => (double)s.Visits).ToListOf(),
            y = curve.Steps.Select(s => Math.Round(value(s), 3)).ToListOf();
        return new Chart(
            title, says, words["year.curve.visits"], unit,
            [
                new Layer(LayerKind.Line, title, 1, x, y),
                new Layer(LayerKind.Dots, "", 1, x, y),
                new Layer(LayerKind.Words, "", 1, [curve.KneeVisits], [y[x.ToList().IndexOf(curve.KneeVisits)]])
                    { Texts = [words["year.curve.knee"]] },
            ],
            new ChartTable(heads, curve.Steps.Select(row).ToListOf()))
        {
            Shape = 0.35,
        };
    }

    private static ChartTable Table(YearOfWater year, ListOf<string> heads, SiteWords say, Func<WeekOfWater, ListOf<string>> row) =>
        new(heads, year.Weeks.Select((w, i) => row(w).Prepend(say.Date(DateOf(year, i))).ToListOf()).ToListOf());

    private static ListOf<double> Begins(YearOfWater year) => Enumerable.Range(0, year.Weeks.Count)
        .Select(w => SoilCharts.DayNumber(year.Begins.InYear(AnyYear).PlusDays(DaysInAWeek * w))).ToListOf();

    private static AnnualDate DateOf(YearOfWater year, int week) =>
        year.Begins.InYear(AnyYear).PlusDays(DaysInAWeek * week) is var date ? new AnnualDate(date.Month, date.Day) : default;
}
