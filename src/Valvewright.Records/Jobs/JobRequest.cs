using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;

namespace Valvewright.Records.Jobs;

/// <summary>What is asked for.</summary>
/// <param name="Kind">plan, proof or season.</param>
/// <param name="Plan">The plan to prove, or to find visits for; season without a plan chooses programs and visits together.</param>
/// <param name="From">plan, season without a plan: the first date on which it is in force; today at the site when not given.</param>
/// <param name="Visits">season: visits a year, 1 to 12; plan: 0 to 12, where 0 is programs that stay as they are keyed in. 4 when not given.</param>
/// <param name="Wishes">season, plan with visits: when visits can be made, and what counts.</param>
public sealed record JobRequest(string Kind, Guid? Plan = null, LocalDate? From = null, int? Visits = null, SeasonWishes? Wishes = null);

/// <summary>When visits can be made, and what counts; what is not given is as <see cref="SeasonOptions"/> has it.</summary>
/// <param name="OnlyOn">Days of the week on which visits can be made.</param>
/// <param name="NotIn">Times of the year without visits; a month is one of them.</param>
/// <param name="OnlyFirstWeekOfMonth">Visits only on the first seven days of a month.</param>
/// <param name="Agreed">Visits that are agreed already; they count among the visits.</param>
/// <param name="LeastDaysBetween">The fewest days between two visits.</param>
/// <param name="StressWeightMm">The depth of water, mm, that one stress day weighs.</param>
/// <param name="MostStressDays">Instead: the most stress days a year that are borne.</param>
/// <param name="Aim">For which share of years the season is chosen.</param>
/// <param name="Shutdown">A winter shutdown on fixed dates; its two visits count among the visits.</param>
/// <param name="PercentsAlone">Visits set the percent, up to 100, and nothing else; without it they may also change programs, where that pays, and go above 100, where every rule still holds.</param>
/// <param name="SettingWorthLitres">What each setting that a visit keys in beside the percent must save a year, L.</param>
public sealed record SeasonWishes(
    ListOf<IsoDayOfWeek>? OnlyOn = null, ListOf<PeriodOfYear>? NotIn = null, bool? OnlyFirstWeekOfMonth = null, ListOf<AnnualDate>? Agreed = null,
    int? LeastDaysBetween = null, double? StressWeightMm = null, double? MostStressDays = null, SeasonAim? Aim = null, Shutdown? Shutdown = null,
    bool? PercentsAlone = null, double? SettingWorthLitres = null)
{
    /// <summary>The options that they come to.</summary>
    /// <param name="visits">Visits a year.</param>
    /// <param name="year">The year whose calendar decides weekdays.</param>
    public SeasonOptions ToOptions(int visits, int year)
    {
        SeasonOptions usual = new();
        return usual with
        {
            Visits = visits,
            OnlyOn = OnlyOn ?? usual.OnlyOn,
            NotIn = NotIn ?? usual.NotIn,
            OnlyFirstWeekOfMonth = OnlyFirstWeekOfMonth ?? usual.OnlyFirstWeekOfMonth,
            Agreed = Agreed ?? usual.Agreed,
            LeastDaysBetween = LeastDaysBetween ?? usual.LeastDaysBetween,
            StressWeightMm = StressWeightMm ?? usual.StressWeightMm,
            MostStressDays = MostStressDays,
            Aim = Aim ?? usual.Aim,
            Shutdown = Shutdown,
            ProgramChanges = PercentsAlone != true,
            AboveFull = PercentsAlone != true,
            SettingWorthLitres = SettingWorthLitres ?? usual.SettingWorthLitres,
            Year = OnlyOn is { Count: > 0 } ? year : null,
        };
    }
}
