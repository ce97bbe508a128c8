using System.Globalization;
using System.Text.RegularExpressions;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Texts;

namespace Valvewright.Cli.Output;

/// <summary>Amounts, times and dates in the units and clock style of a site and the language of a sheet.</summary>
internal sealed partial class SiteWords(UnitSystem units, ClockStyle clock, Language language)
{
    private readonly Wording wording = Wording.In(language);
    private readonly Files.Texts.SiteWords say = new(units, clock, Wording.In(language));

    /// <summary>The words of a site.</summary>
    public static SiteWords Of(Site site, Sheet sheet) => new(site.Units, site.Clock, sheet.Language);

    /// <summary>Whether US customary units are shown.</summary>
    public bool Us => units == UnitSystem.UsCustomary;

    /// <summary>Unit of depths of water.</summary>
    public string DepthUnit => Us ? "in" : "mm";

    /// <summary>Unit of volumes of water.</summary>
    public string VolumeUnit => Us ? "gal" : "m3";

    /// <summary>A depth of a year or so, without its unit.</summary>
    public string Depth(double mm) => Us ? Number(mm / UsUnits.MmPerInch, 1) : Number(mm, 0);

    /// <summary>A depth of a watering or a week, without its unit.</summary>
    public string FineDepth(double mm) => Us ? Number(mm / UsUnits.MmPerInch, 2) : Number(mm, 1);

    /// <summary>A depth of a watering, with its unit.</summary>
    public string SmallDepth(double mm) => $"{FineDepth(mm)} {DepthUnit}";

    /// <summary>A flow with its unit.</summary>
    public string Flow(double lpm) => Us ? $"{Number(lpm / UsUnits.LitresPerGallon, 1)} gpm" : $"{Number(lpm, 1)} L/min";

    /// <summary>How far a rule is broken.</summary>
    public string Figure(BreachFigure figure)
    {
        Func<double, string> show = figure.Measure switch
        {
            BreachMeasure.DepthMm => SmallDepth,
            BreachMeasure.FlowLpm => Flow,
            BreachMeasure.VolumeL => liters => $"{Volume(liters / 1000)} {VolumeUnit}",
            BreachMeasure.StartsPerHour => starts => In($"{Number(starts, 0)} starts"),
            _ => seconds => Duration((long)seconds),
        };
        return figure.Allowed > 0 ? In($"{show(figure.Found)}, {show(figure.Allowed)} allowed") : show(figure.Found);
    }

    /// <summary>A volume of a year without its unit.</summary>
    public string Volume(double cubicMetres) => Us ? wording.Whole(cubicMetres * 1000 / UsUnits.LitresPerGallon) : cubicMetres < 100
        ? Number(cubicMetres, 1) : wording.Whole(cubicMetres);

    /// <summary>Liters or gallons of a watering, without their unit.</summary>
    public string Litres(double litres) => wording.Whole(Us ? litres / UsUnits.LitresPerGallon : litres);

    /// <summary>A time of day; seconds only where there are any.</summary>
    public string Time(LocalTime time) => say.Time(time);

    /// <summary>A time of day to the minute, later rather than earlier: by then it has happened.</summary>
    public string TimeBy(LocalTime time) => Time(time.Second == 0 ? time : new LocalTime(time.Hour, time.Minute).PlusMinutes(1));

    /// <summary>Minutes and seconds: <c>12 min</c>, <c>1 min 30 s</c>.</summary>
    public static string Duration(long seconds) => Files.Texts.SiteWords.Duration(seconds);

    /// <summary>Wed 8 Apr 2026.</summary>
    public string Date(LocalDate date) => say.Date(date);

    /// <summary>8 Apr.</summary>
    public string Date(AnnualDate date) => say.Date(date);

    /// <summary>April 2026, in figures where that is the custom.</summary>
    public string Month(YearMonth month) => $"{wording[$"month.{month.Month}"]} {month.Year}";

    /// <summary>A day of the week in three letters.</summary>
    public string WeekDay(IsoDayOfWeek day) => wording[$"day.{(int)day}"];

    /// <summary>Watering days in words.</summary>
    public string Days(DayRule? days) => say.Days(days);

    /// <summary>A percent to set; 0 is off.</summary>
    public string Percent(int percent) => percent == 0 ? In("off") : wording.Percent(percent);

    /// <summary>A part of a whole, rounded down.</summary>
    public string Share(double part) => wording.Percent(Number(Math.Floor((1000 * part) + 1e-9) / 10, 0));

    /// <summary>A number as percent.</summary>
    public string Percent(double hundredths, int decimals) => wording.Percent(Number(hundredths, decimals));

    /// <summary>When a controller is on: the visits that change something.</summary>
    public string Season(ControllerPlan plan)
    {
        Visit[] visits = [.. plan.Visits
            .Where((v, i) => v.Programs is not null || v.Percent != plan.Visits[(i + plan.Visits.Count - 1) % plan.Visits.Count].Percent)];
        return visits.Length == 0
            ? In($"on all year at {wording.Percent(plan.Visits.Count > 0 ? plan.Visits[0].Percent : plan.Settings.PercentAdjust)}")
            : string.Join(", ", visits.Select(v => Together(In($"{Percent(v.Percent)} on {Date(v.Date)}"))));
    }

    /// <summary>A place of a plan, its program and station named in the person's language.</summary>
    public string Place(string where) => language == Language.English ? where
        : StationPlace().Replace(ProgramPlace().Replace(where, $", {In("program")} $1"), $", {In("station")} $1");

    /// <summary>A sentence in the language.</summary>
    public string In(Sentence sentence) => Sentences.Say(sentence, language, units);

    /// <summary>The same words, not to be parted at the end of a line.</summary>
    public static string Together(string words) => words.Replace(' ', '\u00a0');

    /// <summary>A figure, or a dash where there is none.</summary>
    public static string Number(double value, int decimals) =>
        double.IsNaN(value) ? "-" : value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    [GeneratedRegex(@", program ([A-Z])\b")]
    private static partial Regex ProgramPlace();

    [GeneratedRegex(@", station (\d+)\b")]
    private static partial Regex StationPlace();
}
