using Valvewright.App.Texts;
using Valvewright.Engine.Season;
using Valvewright.Engine.Weather;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Year;

/// <summary>Advice within the year, in the person's language.</summary>
public static class YearWords
{
    /// <summary>Weather older than this says too little of today, days.</summary>
    private const int OldestDays = 10;

    /// <summary>This year's weather to its last day; null where the record does not reach to a few days ago.</summary>
    public static Climate? SoFar(Site site, Climate all, LocalDate today)
    {
        LocalDate begins = InYearAdvice.FirstDayOfYear(site, today);
        bool reaches = all.First <= begins && all.Last >= begins && all.Last < today && Period.DaysBetween(all.Last, today) <= OldestDays;
        return reaches ? all.Between(begins, all.Last) : null;
    }

    /// <summary>What to set today, and whether it is worth a drive.</summary>
    public static string Advice(InYearAdvice advice, LocalDate today, SiteWords say, PageWords words)
    {
        string Percent(int percent) => percent == 0 ? words["plan.off"] : words.Percent(percent);
        (string, object) saves = ("saves", say.Volume(advice.SavedLitres / 1000));
        string set = advice.PercentToday == advice.PercentNow ? words.Fill("inYear.right", ("percent", Percent(advice.PercentNow)))
            : words.Fill(advice.IsWorthADrive ? "inYear.drive" : "inYear.ifThere", ("to", Percent(advice.PercentToday)),
                ("from", Percent(advice.PercentNow)), saves);
        string hold = advice.RainHoldDays > 0
            ? " " + words.Fill("inYear.hold", ("days", advice.RainHoldDays), ("until", say.Date(today.PlusDays(advice.RainHoldDays))),
                ("saves", say.Volume(advice.RainHoldSavesLitres / 1000)))
            : "";
        string visit = advice.Earlier is { } earlier
            ? words.Fill("inYear.earlier", ("to", Percent(earlier.PercentToday)), ("date", say.Date(earlier.Date)),
                ("planned", say.Date(advice.NextVisit)), ("saves", say.Volume(advice.EarlierSavesLitres / 1000)))
            : words.Fill("inYear.stays", ("date", say.Date(advice.NextVisit)));
        return $"{set}{hold} {visit}";
    }
}
