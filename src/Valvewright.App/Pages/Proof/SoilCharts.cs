using NodaTime;
using Valvewright.App.Parts;
using Valvewright.App.Texts;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Proof;

/// <summary>Pictures of a spot's year: the soil's store day by day, and need against water week by week.</summary>
public static class SoilCharts
{
    private const int DaysInAWeek = 7;

    /// <summary>The store between wilting point (0) and field capacity, with rain and irrigation, and the level below which plants lack
    /// water.</summary>
    public static Chart Store(SpotYear year, Zone zone, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        ListOf<double> days = Days(year), ends = days.Select(d => d + 1).ToListOf();
        double[] store = [.. year.DepletionMm.Select(d => year.Root.TotalMm - d)];
        double lacking = year.Root.TotalMm - year.Root.ReadilyMm;
        int lowest = Enumerable.Range(0, store.Length).MinBy(d => store[d]);
        string says = words.Fill(
            year.UnmetMm < 0.5 ? "soil.store.says.never" : "soil.store.says", ("store", say.Depth(store[lowest])),
                ("date", say.Date(year.Weather.DateOf(lowest))), ("level", say.Depth(lacking)),
            ("unmet", say.Depth(year.UnmetMm)));
        return new Chart(
            words.Fill("soil.store.title", ("zone", zone.Name)), says, "", say.DepthUnit,
            [
                new Layer(LayerKind.Bars, words["soil.rain"], 3, days, Numbers(year.RainInMm, say)) { X2 = ends },
                new Layer(LayerKind.Bars, words["soil.water"], 2, days, Numbers(year.SunkInMm, say)) { X2 = ends },
                new Layer(LayerKind.Line, words["soil.store"], 1, days, Numbers(store, say)),
                new Layer(LayerKind.Rule, words["soil.full"], 5, [], [say.DepthNumber(year.Root.TotalMm)]),
                new Layer(LayerKind.Rule, words["soil.lacking"], 4, [], [say.DepthNumber(lacking)]),
            ],
            new ChartTable(
                [words["soil.week"], words["soil.store"], words["soil.rain"], words["soil.water"]],
                Weeks(year).Select(w => Row(say.Date(w.Begins), say.Depth(store[w.Last]), say.Depth(Sum(year.RainInMm, w)),
                    say.Depth(Sum(year.SunkInMm, w)))).ToListOf()))
        {
            Across = Across.Date,
            Months = Months(words),
            Shape = 0.4,
        };
    }

    /// <summary>What the plants would use, and where it comes from: rain that sinks in, and irrigation on top of it.</summary>
    public static Chart Weeks(SpotYear year, Zone zone, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        Week[] weeks = [.. Weeks(year)];
        ListOf<double> from = weeks.Select(w => DayNumber(w.Begins)).ToListOf(),
            to = weeks.Select(w => DayNumber(w.Begins) + w.Last - w.First + 1).ToListOf();
        double[] rain = [.. weeks.Select(w => Sum(year.RainInMm, w))], water = [.. weeks.Select(w => Sum(year.SunkInMm, w))],
            need = [.. weeks.Select(w => Sum(year.WantedMm, w))];
        return new Chart(
            words.Fill("soil.weeks.title", ("zone", zone.Name)),
            words.Fill("soil.weeks.says", ("need", say.LargeDepth(need.Sum())), ("rain", say.LargeDepth(rain.Sum())),
                ("water", say.LargeDepth(water.Sum()))), "",
            words.Fill("soil.weeks.unit", ("unit", say.DepthUnit)),
            [
                new Layer(LayerKind.Bars, words["soil.waterOnRain"], 2, from, Numbers(rain.Zip(water, (r, w) => r + w), say)) { X2 = to },
                new Layer(LayerKind.Bars, words["soil.rain"], 1, from, Numbers(rain, say)) { X2 = to },
                new Layer(LayerKind.Steps, words["soil.need"], 4, from, Numbers(need, say)),
            ],
            new ChartTable(
                [words["soil.week"], words["soil.need"], words["soil.rain"], words["soil.water"]],
                weeks.Select((w, i) => Row(say.Date(w.Begins), say.Depth(need[i]), say.Depth(rain[i]), say.Depth(water[i]))).ToListOf()))
        {
            Across = Across.Date,
            Months = Months(words),
            Shape = 0.35,
        };
    }

    /// <summary>Days since 1970-01-01, as charts count them.</summary>
    public static double DayNumber(LocalDate date) => Period.DaysBetween(new LocalDate(1970, 1, 1), date);

    /// <summary>Short names of the months, for charts of dates.</summary>
    public static ListOf<string> Months(PageWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return Enumerable.Range(1, 12).Select(m => words.Common[$"month.{m}"]).ToListOf();
    }

    private static IEnumerable<Week> Weeks(SpotYear year)
    {
        int days = year.DepletionMm.Count;
        for (int first = 0; first < days; first += DaysInAWeek)
        {
            yield return new Week(year.Weather.DateOf(first), first, Math.Min(first + DaysInAWeek, days) - 1);
        }
    }

    private static double Sum(ListOf<double> byDay, Week week) =>
        Enumerable.Range(week.First, week.Last - week.First + 1).Sum(d => byDay[d]);

    private static ListOf<double> Days(SpotYear year) =>
        Enumerable.Range(0, year.DepletionMm.Count).Select(d => DayNumber(year.Weather.DateOf(d))).ToListOf();

    private static ListOf<string> Row(params string[] cells) => [.. cells];

    private static ListOf<double> Numbers(IEnumerable<double> mm, SiteWords say) =>
        mm.Select(v => Math.Round(say.DepthNumber(v), 4)).ToListOf();

    private readonly record struct Week(LocalDate Begins, int First, int Last);
}
