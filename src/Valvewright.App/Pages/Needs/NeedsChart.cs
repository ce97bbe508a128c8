using Valvewright.App.Parts;
using Valvewright.App.Texts;
using Valvewright.Engine.Needs;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Needs;

/// <summary>The picture of a zone's need against rain, week by week.</summary>
public static class NeedsChart
{
    /// <summary>A year that is no leap year stands for all; 52 weeks begin on its dates.</summary>
    private const int AnyYear = 2001;

    /// <summary>Bars of irrigation, lines of what the plants use and of rain.</summary>
    public static Chart Of(ZoneWeeks weeks, SiteWords say, PageWords words)
    {
        ListOf<WeekDemand> all = weeks.Need.Weeks;
        double[] begins = [.. all.Select(w => DayOf(w.Begins))];
        double[] ends = [.. begins.Skip(1), DayOf(new AnnualDate(12, 31)) + 1];
        ListOf<double> x = begins.ToListOf();
        ListOf<double> Values(Func<WeekDemand, double> of) => all.Select(w => Math.Round(say.DepthNumber(of(w)), 3)).ToListOf();
        ListOf<double> Rain(ListOf<double> mm) => mm.Select(v => Math.Round(say.DepthNumber(v), 3)).ToListOf();
        WeekDemand peak = all.MaxBy(w => w.NetMm.EightInTen)!;
        string unit = say.DepthUnit;
        return new Chart(
            words.Fill("needs.chart.title", ("zone", weeks.Need.Zone)),
            words.Fill("needs.chart.says", ("date", say.Date(peak.Begins)), ("mean", say.Depth(peak.NetMm.Mean)),
                ("dry", say.Depth(peak.NetMm.EightInTen)), ("rain", say.Depth(weeks.RainMeanMm[peak.Week - 1]))),
            words["needs.chart.x"],
            words.Fill("needs.chart.y", ("unit", unit)),
            [
                new Layer(LayerKind.Bars, words["needs.chart.net"], 2, x, Values(w => w.NetMm.Mean)) { X2 = ends.ToListOf() },
                new Layer(LayerKind.Steps, words["needs.chart.netDry"], 4, x, Values(w => w.NetMm.EightInTen)),
                new Layer(LayerKind.Steps, words["needs.chart.rain"], 1, x, Rain(weeks.RainMeanMm)),
                new Layer(LayerKind.Steps, words["needs.chart.rainDry"], 5, x, Rain(weeks.RainDryMm)),
            ],
            new ChartTable(
                [words["needs.chart.week"],
                    .. ((string[])["needs.chart.use", "needs.chart.rain", "needs.chart.rainDry", "needs.chart.net", "needs.chart.netDry",
                        "needs.chart.grossDry"]).Select(n => $"{words.All[n]} ({unit})")],
                all.Select((w, i) => (ListOf<string>)
                [
                    say.Date(w.Begins), Number(w.UseMm.Mean), Number(weeks.RainMeanMm[i]), Number(weeks.RainDryMm[i]), Number(w.NetMm.Mean),
                        Number(w.NetMm.EightInTen), Number(w.GrossMm.EightInTen),
                ]).ToListOf()))
        {
            Across = Across.Date,
            Months = Enumerable.Range(1, 12).Select(m => words.Common[$"month.{m}"]).ToListOf(),
        };

        string Number(double mm) => SiteWords.Number(say.DepthNumber(mm), say.IsUs ? 2 : 1);
    }

    private static double DayOf(AnnualDate date) => Period.DaysBetween(new LocalDate(1970, 1, 1), date.InYear(AnyYear));
}
