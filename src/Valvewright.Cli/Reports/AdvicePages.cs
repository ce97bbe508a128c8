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
        SiteWords words = SiteWords.Of(site);
        sheet.Heading($"{site.Name}, {SiteWords.Date(today)}");
        sheet.Say($"This year so far: {words.Depth(soFar.EtoMm.Sum())} {words.DepthUnit} of ETo and {words.Depth(soFar.RainMm.Sum())} {words.DepthUnit} of rain.");
        sheet.Say();
        Table table = new("controller", ">set now", ">set today", $">saves {words.VolumeUnit}", "rain hold until", "next visit");
        foreach (InYearAdvice one in advice)
        {
            table.Row(
                one.Controller, Percent(one.PercentNow), Percent(one.PercentToday), words.Volume(one.SavedLitres / 1000),
                one.RainHoldDays > 0 ? SiteWords.Date(today.PlusDays(one.RainHoldDays)) : "-", SiteWords.Date(one.NextVisit));
        }

        sheet.Show(table);
        sheet.Say();
        foreach (InYearAdvice one in advice)
        {
            sheet.Say($"{one.Controller}: {Sentence(words, today, one)}", 2);
        }

        sheet.Say();
        Table zones = new("zone", $">used {words.DepthUnit}", $">may use {words.DepthUnit}", ">days left");
        foreach (InYearAdvice one in advice)
        {
            zones.Row(one.Controller, "", "", "");
            foreach (ZoneToday zone in one.Zones)
            {
                zones.Row($" {zone.Zone}", Depth(words, zone.DepletionMm), Depth(words, zone.ReadilyMm), zone.DaysLeft >= 60 ? "60 +" : $"{zone.DaysLeft}");
            }
        }

        sheet.Show(zones);
        sheet.Say();
        sheet.Say("saves: water and weighed stress until the year's end, mean of what may come. used: water gone from the root zone, mean of the spots, then of the driest. may use: what may be gone before plants suffer. days left: until the driest spot is past that, without rain or water.");
    }

    private static string Sentence(SiteWords words, LocalDate today, InYearAdvice one)
    {
        string saves = $"{words.Volume(one.SavedLitres / 1000)} {words.VolumeUnit}";
        string set = one.PercentToday == one.PercentNow ? "it is set right."
            : one.IsWorthADrive ? $"{Percent(one.PercentToday)} in place of {Percent(one.PercentNow)} is worth a drive: it saves {saves}."
            : $"set it to {Percent(one.PercentToday)} if you are there; it saves {saves}, which is not worth a drive.";
        string hold = one.RainHoldDays > 0 ? $" A rain hold of {(one.RainHoldDays == 1 ? "1 day" : $"{one.RainHoldDays} days")}, until {SiteWords.Date(today.PlusDays(one.RainHoldDays))}, saves {words.Volume(one.RainHoldSavesLitres / 1000)} {words.VolumeUnit} more." : "";
        string visit = one.Earlier is { } earlier
            ? $" Better still: {Percent(earlier.PercentToday)} today and the next visit on {SiteWords.Date(earlier.Date)} rather than {SiteWords.Date(one.NextVisit)}; that saves {words.Volume(one.EarlierSavesLitres / 1000)} {words.VolumeUnit} more."
            : $" The next visit stays on {SiteWords.Date(one.NextVisit)}.";
        return set + hold + visit;
    }

    private static string Percent(int percent) => percent == 0 ? "off" : $"{percent} %";

    private static string Depth(SiteWords words, double mm) => words.SmallDepth(mm).Split(' ')[0];
}
