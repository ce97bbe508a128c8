using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Cli.Reports;

/// <summary>Advice within the year as text.</summary>
internal static class AdvicePages
{
    public static void Write(Sheet sheet, Site site, LocalDate today, Climate soFar, ListOf<InYearAdvice> advice)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading($"{site.Name}, {words.Date(today)}");
        sheet.Say($"This year so far: {words.Depth(soFar.EtoMm.Sum())} {words.DepthUnit} of ETo, {words.Depth(soFar.RainMm.Sum())} "
            + $"{words.DepthUnit} of rain.");
        sheet.Say();
        Table table = new("Controller", ">Set now", ">Set today", $">Saves by year end, {words.VolumeUnit}", "Rain delay until",
            "Next visit");
        foreach (InYearAdvice one in advice)
        {
            table.Row(
                one.Controller, words.Percent(one.PercentNow), words.Percent(one.PercentToday), words.Volume(one.SavedLitres / 1000),
                one.RainHoldDays > 0 ? words.Date(today.PlusDays(one.RainHoldDays)) : "-", words.Date(one.NextVisit));
        }

        sheet.Show(table);
        sheet.Say();
        foreach (InYearAdvice one in advice)
        {
            sheet.Say($"{one.Controller}: {Set(words, one)}{Delay(words, today, one)}{Visit(words, one)}", 2);
        }

        sheet.Say();
        Table zones = new("Zone", $">Depletion, {words.DepthUnit}", $">Allowed, {words.DepthUnit}", ">Days left");
        foreach (InYearAdvice one in advice)
        {
            zones.Row(one.Controller, "", "", "");
            foreach (ZoneToday zone in one.Zones)
            {
                zones.Row($" {zone.Zone}", words.FineDepth(zone.DepletionMm), words.FineDepth(zone.ReadilyMm), zone.DaysLeft >= 60
                    ? "60 +" : $"{zone.DaysLeft}");
            }
        }

        sheet.Show(zones);
        sheet.Say();
        sheet.Say("Saves: water and weighted unmet use, mean of what may come. Depletion: low quarter, this morning. Days left: until " +
            "plants use less, without rain or irrigation.");
    }

    private static Sentence Set(SiteWords words, InYearAdvice one)
    {
        string saves = $"{words.Volume(one.SavedLitres / 1000)} {words.VolumeUnit}";
        return one.PercentToday == one.PercentNow ? (Sentence)"No change needed."
            : one.IsWorthADrive ? (
                Sentence)$"Change {words.Percent(one.PercentNow)} to {words.Percent(one.PercentToday)}: saves {saves}, worth a trip."
            : (Sentence)$"Change {words.Percent(one.PercentNow)} to {words.Percent(one.PercentToday)} if you are on site: saves {saves}, not worth a trip.";
    }

    private static Sentence Delay(SiteWords words, LocalDate today, InYearAdvice one) => one.RainHoldDays == 0 ? ""
        : (Sentence)$" A rain delay until {words.Date(today.PlusDays(one.RainHoldDays))} saves {words.Volume(one.RainHoldSavesLitres / 1000)} {words.VolumeUnit} more.";

    private static Sentence Visit(SiteWords words, InYearAdvice one) => one.Earlier is { } earlier
        ? (Sentence)$" Better: {words.Percent(earlier.PercentToday)} today, and the next visit on {words.Date(earlier.Date)} instead of {words.Date(one.NextVisit)}. Saves {words.Volume(one.EarlierSavesLitres / 1000)} {words.VolumeUnit} more."
        : (Sentence)$" Next visit: {words.Date(one.NextVisit)}.";
}
