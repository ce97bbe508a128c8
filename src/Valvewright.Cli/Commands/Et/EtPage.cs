using System.Globalization;
using NodaTime;
using Valvewright.Cli.Output;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;
using Valvewright.Files.Texts;
using Valvewright.Files.Weather;

namespace Valvewright.Cli.Commands.Et;

/// <summary>The answer of <c>et</c> as a page of text.</summary>
internal static class EtPage
{
    /// <summary>Without a range, more days than this are not printed one by one.</summary>
    private const int MostDaysUnasked = 400;

    /// <summary>More months than this are printed as means of the calendar months.</summary>
    private const int MostMonths = 36;

    public static void Print(EtAnswer answer, EtChoices choices, Sheet sheet)
    {
        bool us = choices.Units == UnitSystem.UsCustomary;
        Head(answer, sheet, us);
        if (EtoChoice.Stated(choices.Eto) is { Length: > 0 } stated)
        {
            sheet.Say($"ETo with: {stated}.");
        }

        Days(answer, choices, sheet, us);
        Months(answer, sheet, us);
        Filled(answer, sheet);
    }

    private static string Depth(double mm, bool us, bool sum = false) =>
        (us ? mm / UsUnits.MmPerInch : mm).ToString(us ? "0.00" : sum ? "0.0" : "0.00", CultureInfo.InvariantCulture);

    private static string Own(double? mm, bool us) => mm is { } known ? Depth(known, us, sum: true) : "-";

    private static void Head(EtAnswer answer, Sheet sheet, bool us)
    {
        sheet.Heading($"Reference evapotranspiration, {answer.Station}");
        double height = us ? answer.Place.ElevationM / UsUnits.MPerFoot : answer.Place.ElevationM;
        string unit = us ? "ft" : "m";
        Sentence longitude = double.IsNaN(answer.Place.LongitudeDeg) ? "not stated" : (Sentence)$"{answer.Place.LongitudeDeg:0.####}";
        Sentence place = $"Latitude {answer.Place.LatitudeDeg:0.####}, longitude {longitude}, elevation {height:0} {unit}";
        sheet.Say(answer.WindHeightM is { } metres
            ? (Sentence)$"{place}, wind measured at {(us ? metres / UsUnits.MPerFoot : metres):0.#} {unit}." : (Sentence)$"{place}.");
        if (answer.Source.Length > 0)
        {
            sheet.Say($"Weather: {answer.Source}.");
        }

        Notes(answer.Notes, sheet);
        const int Shown = 12;
        foreach (string line in GapWords.Lines(answer.Questions, Shown).Select(sheet.In))
        {
            sheet.Say($"- {char.ToUpperInvariant(line[0])}{line[1..]}", 2);
        }
    }

    /// <summary>What was found and assumed while the file was read.</summary>
    public static void Notes(ListOf<WeatherNote> notes, Sheet sheet)
    {
        foreach (WeatherNote note in notes)
        {
            sheet.Say(note.Kind switch
            {
                WeatherNoteKind.Warning => $"- Warning: {note.Text}",
                WeatherNoteKind.Assumed => (Sentence)$"- Assumed: {note.Text}",
                _ => (Sentence)$"- {note.Text}",
            }, 2);
        }
    }

    private static void Days(EtAnswer answer, EtChoices choices, Sheet sheet, bool us)
    {
        bool asked = choices.From is not null || choices.To is not null;
        int skipped = asked || answer.Days.Count <= MostDaysUnasked ? 0 : answer.Days.Count - 365;
        sheet.Heading("Day by day");
        if (skipped > 0)
        {
            sheet.Say($"The last 365 of {answer.Days.Count} days; --from and --to print others, --json all.");
        }

        string unit = us ? "in" : "mm";
        Table table = new("date", $">ETo {unit}", $">rain {unit}", "how");
        foreach (EtDay day in answer.Days.Skip(skipped))
        {
            table.Row($"{day.Date:uuuu-MM-dd}", Depth(day.EtoMm, us), Depth(day.RainMm, us, sum: true) + (day.RainFilled ? "*" : " "),
                sheet.In(EtMethodWords.Of(day.Method)));
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say(
            "PM: Penman-Monteith, short reference (ASCE-EWRI 2005, FAO-56); vap: vapor pressure, Rs: radiation. * not measured, filled.");
    }

    private static void Months(EtAnswer answer, Sheet sheet, bool us)
    {
        string unit = us ? "in" : "mm";
        if (answer.Months.Count <= MostMonths)
        {
            sheet.Heading("By month");
            Table table = new("month", ">days", $">ETo {unit}", $">source's ETo {unit}", $">rain {unit}", ">days filled");
            foreach (EtMonth month in answer.Months)
            {
                table.Row($"{month.Year}-{month.Month:00}", $"{month.Days}", Depth(month.EtoMm, us, sum: true),
                    Own(month.PublishedEtoMm, us), Depth(month.RainMm, us, sum: true), $"{month.FilledDays}");
            }

            double? own = answer.Months.All(m => m.PublishedEtoMm is not null) ? answer.Months.Sum(m => m.PublishedEtoMm) : null;
            table.Row(sheet.In("all"), $"{answer.Days.Count}", Depth(answer.Months.Sum(m => m.EtoMm), us, sum: true), Own(own, us),
                Depth(answer.Months.Sum(m => m.RainMm), us, sum: true), $"{answer.Months.Sum(m => m.FilledDays)}");
            sheet.Show(table);
            return;
        }

        sheet.Heading($"By month, mean of {answer.Days[0].Date.Year} to {answer.Days[^1].Date.Year} (whole months)");
        Table means = new("month", $">ETo {unit}", ">least", ">most", $">rain {unit}", ">months");
        foreach (IGrouping<int, EtMonth> group in answer.Months.Where(IsWhole).GroupBy(m => m.Month).OrderBy(g => g.Key))
        {
            means.Row(
                Wording.In(sheet.Language)[$"month.{group.Key}"], Depth(group.Average(m => m.EtoMm), us, sum: true),
                    Depth(group.Min(m => m.EtoMm), us, sum: true),
                Depth(group.Max(m => m.EtoMm), us, sum: true), Depth(group.Average(m => m.RainMm), us, sum: true), $"{group.Count()}");
        }

        sheet.Show(means);
    }

    private static bool IsWhole(EtMonth month) => month.Days == CalendarSystem.Iso.GetDaysInMonth(month.Year, month.Month);

    private static void Filled(EtAnswer answer, Sheet sheet)
    {
        sheet.Heading("Not measured; used instead");
        if (answer.Gaps.Count == 0)
        {
            sheet.Say("Nothing: every day was measured.");
            return;
        }

        foreach (IGrouping<(WeatherVariable Variable, FillMethod Method), Gap> group in answer.Gaps.GroupBy(g => (g.Variable, g.Method)))
        {
            Gap longest = group.MaxBy(g => g.Days);
            int days = group.Sum(g => g.Days);
            Sentence how = EtMethodWords.Of(group.Key.Method), what = EtMethodWords.Of(group.Key.Variable);
            sheet.Say(group.Count() == 1
                ? (Sentence)$"- {what}: {days} days in 1 run ({longest.From:uuuu-MM-dd} to {longest.To:uuuu-MM-dd}): {how}."
                : (Sentence)$"- {what}: {days} days in {group.Count()} runs (longest {longest.From:uuuu-MM-dd} to {longest.To:uuuu-MM-dd}): {how}.",
                2);
        }
    }
}
