using System.Globalization;
using System.Text.RegularExpressions;
using Valvewright.App.Texts;
using Valvewright.Engine.Proof;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Proof;

/// <summary>What a proof holds, in the person's language.</summary>
public static partial class ProofWords
{
    /// <summary>A year's name: the calendar year, or both where it runs over the new year.</summary>
    public static string Year(LocalDate from, LocalDate to) =>
        from.Year == to.Year ? from.Year.ToString(CultureInfo.InvariantCulture)
            : string.Create(CultureInfo.InvariantCulture, $"{from.Year}/{to.Year % 100:00}");

    /// <summary>Where a rule is broken: <c>North, program A, station 3 (Lawn)</c> with its two plain words in the person's language; names
    /// stay as they are.</summary>
    public static string Where(string where, PageWords words)
    {
        string said = ProgramPlace().Replace(where, m => words.Fill("breach.program", ("letter", m.Groups[1].Value)));
        return StationPlace().Replace(said, m => words.Fill("breach.station", ("station", m.Groups[1].Value)));
    }

    /// <summary>How far a rule is broken.</summary>
    public static string Worst(BreachFigure worst, SiteWords say, PageWords words)
    {
        Func<double, string> amount = worst.Measure switch
        {
            BreachMeasure.DepthMm => say.Depth,
            BreachMeasure.FlowLpm => say.Flow,
            BreachMeasure.VolumeL => liters => say.Volume(liters / 1000),
            BreachMeasure.StartsPerHour => starts => words.Count("breach.starts", (int)starts),
            _ => seconds => SiteWords.Duration((long)Math.Round(seconds)),
        };
        return worst.Allowed > 0
            ? words.Fill("breach.worst.allowed", ("found", amount(worst.Found)), ("allowed", amount(worst.Allowed)))
            : words.Fill("breach.worst", ("found", amount(worst.Found)));
    }

    /// <summary>A way of watering beside the plan.</summary>
    public static string Way(Practice practice, PageWords words)
    {
        return practice.ShortName switch
        {
            "plan" => words["proof.way.plan"],
            "July" => words["proof.way.july"],
            "January" => words["proof.way.january"],
            "monthly" => words["proof.way.monthly"],
            "one %" => words["proof.way.one"],
            _ => practice.Name,
        };
    }

    [GeneratedRegex(@", program ([A-Z])\b")]
    private static partial Regex ProgramPlace();

    [GeneratedRegex(@", station (\d+)\b")]
    private static partial Regex StationPlace();
}
