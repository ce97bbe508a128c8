using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;

namespace Valvewright.Work.Accounts;

/// <summary>What is known of a site's water, from which its accounts are made.</summary>
/// <param name="Site">The survey.</param>
/// <param name="Plan">Its plan; null where none was saved.</param>
/// <param name="Years">The site with its weather; null where there is none that can be used.</param>
/// <param name="Left">What visits left, in any order.</param>
/// <param name="Meters">Readings of water meters.</param>
public sealed record WaterKnown(Site Site, Plan? Plan, SiteYears? Years, ListOf<LeftByVisit> Left, ListOf<ReadingsOfMeter> Meters);

/// <summary>What the meter of a supply showed.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Readings">Site time and reading, by rising time.</param>
public sealed record ReadingsOfMeter(string Supply, ListOf<(LocalDateTime At, double M3)> Readings);

/// <summary>What a visit left on a controller.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="At">Site time.</param>
/// <param name="IsOff">Whether it was left off.</param>
/// <param name="Settings">What was left; null where it was left off, and where the record does not say all of it.</param>
public sealed record LeftByVisit(string Controller, LocalDateTime At, bool IsOff, Settings? Settings)
{
    /// <summary>Whether the water since then can be worked out.</summary>
    public bool IsKnown => IsOff || Settings is not null;

    /// <summary>Takes a visit's record in quick form; null where it says nothing of settings. A record of the percent alone stands for
    /// the plan's programs at that percent.</summary>
    public static LeftByVisit? Of(Site site, Plan? plan, string controller, LocalDateTime at, string asLeft)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (string.IsNullOrWhiteSpace(asLeft) || site.Controllers.FirstOrDefault(c => c.Name == controller) is not { } own)
        {
            return null;
        }

        ReadText read = ReadingText.Parse(asLeft, own.Profile, site.Clock);
        if (read.Reading.Programs.Count == 0 && read.Doubts.Count == 0)
        {
            return OfPercent(plan, controller, at, read.Reading.Off == true ? 0 : read.Reading.Percent);
        }

        bool hasPercent = own.Profile.Percent.Settings().Any(p => p != 100);
        return read.Reading.Off == true && read.Doubts.Count == 0
            ? new LeftByVisit(controller, at, true, null)
            : new LeftByVisit(controller, at, false,
                StandingPrograms.IsWhole(own, read.Reading) && (read.Reading.Percent is not null || !hasPercent)
                    ? Standing(site, own, read, at.Date) : null);
    }

    /// <summary>A visit of which only the percent that it left is on record, 0 for off; null where not even that is.</summary>
    public static LeftByVisit OfPercent(Plan? plan, string controller, LocalDateTime at, int? percent) => new(
        controller, at, percent == 0,
        percent is > 0 && plan?.Controllers.FirstOrDefault(c => c.Controller == controller) is { } planned
            ? planned.SettingsOn(at.Date) with { PercentAdjust = percent.Value } : null);

    private static Settings? Standing(Site site, SiteController own, ReadText read, LocalDate date)
    {
        Site alone = site with { Controllers = [own] };
        try
        {
            return StandingPrograms.Of(alone, [new ControllerRead("", own, read)], null, date).Plan.Controllers[0].Settings;
        }
        catch (RefusalException)
        {
            return null;
        }
    }
}
