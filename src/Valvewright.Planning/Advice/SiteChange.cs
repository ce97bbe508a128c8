using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Planning;

/// <summary>One change to a site that would make a plan possible.</summary>
/// <param name="What">In the person's terms: "30 more minutes of permitted hours, until 6:30".</param>
/// <param name="Size">How much trouble it is, in rough, comparable steps of our own: a quarter of an hour, a tenth of the flow or a free
/// key is 1; smaller first.</param>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(MoreHours), "moreHours")]
[JsonDerivedType(typeof(MoreFlow), "moreFlow")]
[JsonDerivedType(typeof(AnotherDay), "anotherDay")]
[JsonDerivedType(typeof(LargerController), "largerController")]
[JsonDerivedType(typeof(MovedStation), "movedStation")]
[JsonDerivedType(typeof(ClocksFollow), "clocksFollow")]
[JsonDerivedType(typeof(LessAsked), "lessAsked")]
public abstract record SiteChange(Sentence What, double Size)
{
    /// <summary>The site with the change made.</summary>
    public abstract Site ApplyTo(Site site);

    private protected static Site WithSupply(Site site, string name, Func<WaterSupply, WaterSupply> change) =>
        site with { Supplies = [.. site.Supplies.Select(s => s.Name == name ? change(s) : s)] };

    private protected static Site WithController(Site site, string name, Func<SiteController, SiteController> change) =>
        site with { Controllers = [.. site.Controllers.Select(c => c.Name == name ? change(c) : c)] };
}

/// <summary>Permitted hours that begin earlier.</summary>
/// <param name="Supply">The supply whose hours they are.</param>
/// <param name="Minutes">How much longer the longest window gets.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record MoreHours(string Supply, int Minutes, Sentence What, double Size) : SiteChange(What, Size)
{
    private const int MinutesOfDay = 24 * 60;

    /// <inheritdoc/>
    public override Site ApplyTo(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return WithSupply(site, Supply, s => s with { Permitted = s.Permitted with { Hours = Widened(s.Permitted) } });
    }

    /// <summary>The window that is made longer; null where every hour is permitted.</summary>
    /// <remarks>Of some dates only, hours that begin at midnight can't begin earlier.</remarks>
    internal static TimeWindow? Longest(PermittedTimes permitted) => permitted.HoursInOne()
        .OrderByDescending(h => permitted.EveryDate || h.From != LocalTime.Midnight)
        .ThenByDescending(h => h.Seconds)
        .FirstOrDefault();

    private ListOf<TimeWindow> Widened(PermittedTimes permitted)
    {
        TimeWindow? longest = Longest(permitted);
        return longest is null || longest.Seconds / 60 + Minutes >= MinutesOfDay
            ? []
            : [.. permitted.Hours.Select(h => h.From == longest.From ? h with { From = h.From.PlusMinutes(-Minutes) } : h)];
    }
}

/// <summary>A supply that gives more at once.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Lpm">How much more, L/min.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record MoreFlow(string Supply, double Lpm, Sentence What, double Size) : SiteChange(What, Size)
{
    /// <inheritdoc/>
    public override Site ApplyTo(Site site) => WithSupply(site, Supply, s => s with { FlowLpm = s.FlowLpm + Lpm });
}

/// <summary>One more permitted day of the week, or both parities of dates.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Day">The day; None where the limit to odd or even dates is lifted.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record AnotherDay(string Supply, IsoDayOfWeek Day, Sentence What, double Size) : SiteChange(What, Size)
{
    /// <inheritdoc/>
    public override Site ApplyTo(Site site) => WithSupply(site, Supply, s => s with
    {
        Permitted = Day == IsoDayOfWeek.None
            ? s.Permitted with { Parity = DateParity.Any }
            : s.Permitted with { Weekdays = [.. s.Permitted.Weekdays.Append(Day).Distinct().Order()] },
    });
}

/// <summary>A controller that holds more.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Programs">Further programs.</param>
/// <param name="Starts">Further start times a program.</param>
/// <param name="RunTimeSeconds">How much longer its longest run time is.</param>
/// <param name="AnyDayRule">Whether it offers all kinds of day rules and intervals to 31 days.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record LargerController(
    string Controller, int Programs, int Starts, int RunTimeSeconds, bool AnyDayRule, Sentence What, double Size) : SiteChange(What, Size)
{
    private const int LongestInterval = 31;

    /// <inheritdoc/>
    public override Site ApplyTo(Site site) => WithController(site, Controller, c => c with
    {
        Profile = c.Profile with
        {
            Programs = c.Profile.Programs + Programs,
            StartTimesPerProgram = c.Profile.StartTimesPerProgram + Starts,
            RunTimeLimitSeconds = c.Profile.RunTimeLimitSeconds + RunTimeSeconds,
            DayRules = AnyDayRule ? [.. Enum.GetValues<Engine.Controllers.DayRuleKind>()] : c.Profile.DayRules,
            LargestIntervalDays = AnyDayRule ? Math.Max(LongestInterval, c.Profile.LargestIntervalDays) : c.Profile.LargestIntervalDays,
        },
    });
}

/// <summary>A station's valve wired to another controller.</summary>
/// <param name="From">The controller it is on.</param>
/// <param name="Station">Its station there.</param>
/// <param name="To">The controller with a free station.</param>
/// <param name="ToStation">That station.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record MovedStation(string From, int Station, string To, int ToStation, Sentence What, double Size) : SiteChange(What, Size)
{
    /// <inheritdoc/>
    public override Site ApplyTo(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        Zone zone = site.ControllerNamed(From).ZoneAt(Station);
        Site without = WithController(site, From, c => c with { Zones = [.. c.Zones.Where(z => z.Station != Station)] });
        return WithController(
            without, To, c => c with { Zones = [.. c.Zones.Append(zone with { Station = ToStation }).OrderBy(z => z.Station)] });
    }
}

/// <summary>Clocks that follow daylight saving.</summary>
/// <param name="Names">The controllers.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record ClocksFollow(ListOf<string> Names, Sentence What, double Size) : SiteChange(What, Size)
{
    /// <inheritdoc/>
    public override Site ApplyTo(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return Names.Aggregate(
            site, (s, name) => WithController(s, name, c => c with { Profile = c.Profile with { ClockKnowsDaylightSaving = true } }));
    }
}

/// <summary>Plants that are content with less: a landscape coefficient that much smaller all year, for all zones but seedbeds.</summary>
/// <param name="Supply">The supply of the zones.</param>
/// <param name="Percent">How much less.</param>
/// <param name="What">In words.</param>
/// <param name="Size">In steps.</param>
public sealed record LessAsked(string Supply, int Percent, Sentence What, double Size) : SiteChange(What, Size)
{
    /// <inheritdoc/>
    public override Site ApplyTo(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site with { Controllers =
            [.. site.Controllers.Select(c => c.Supply == Supply ? c with { Zones = [.. c.Zones.Select(Lessened)] } : c)] };
    }

    private Zone Lessened(Zone zone) => zone.Planting.Stage == PlantStage.NewlySeeded
        ? zone
        : zone with { Planting = zone.Planting with
            { CoefficientByMonth = [.. zone.Planting.CoefficientByMonth.Select(k => k * (100 - Percent) / 100)] } };
}
