using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;

namespace Valvewright.Records.Jobs;

/// <summary>When visits can be made, and what counts; what is not given is as <see cref="SeasonOptions"/> has it.</summary>
/// <param name="OnlyOn">Days of the week on which visits can be made.</param>
/// <param name="NotIn">Times of the year without visits; a month is one of them.</param>
/// <param name="OnlyFirstWeekOfMonth">Visits only on the first seven days of a month.</param>
/// <param name="Agreed">Visits that are agreed already; they count among the visits.</param>
/// <param name="LeastDaysBetween">The fewest days between two visits.</param>
/// <param name="StressWeightMm">The depth of water, mm, that one stress day weighs.</param>
/// <param name="MostStressDays">Instead: the most stress days a year that are allowed, mean of the site, in years that the season is not chosen with.</param>
/// <param name="Aim">For which share of years the season is chosen.</param>
/// <param name="Shutdown">A winter shutdown on fixed dates; its two visits count among the visits.</param>
/// <param name="PercentsAlone">Visits set the percent, up to 100, and nothing else; without it they may also change programs, where that pays, and go above 100, where every rule still holds.</param>
/// <param name="SettingWorthLitres">What each setting that a visit keys in beside the percent must save a year, L.</param>
/// <param name="MostWaterM3">Instead of a weight: the water that there is a year, m3; the least stress within it is found.</param>
/// <param name="NearBound">Whether to work out the nearer bound on what no season costs less than.</param>
public sealed record SeasonWishes(
    ListOf<IsoDayOfWeek>? OnlyOn = null, ListOf<PeriodOfYear>? NotIn = null, bool? OnlyFirstWeekOfMonth = null, ListOf<AnnualDate>? Agreed = null,
    int? LeastDaysBetween = null, double? StressWeightMm = null, double? MostStressDays = null, SeasonAim? Aim = null, Shutdown? Shutdown = null,
    bool? PercentsAlone = null, double? SettingWorthLitres = null, double? MostWaterM3 = null, bool? NearBound = null)
{
    /// <summary>Limits that exclude each other and are both given, by the names of their members; null where none do.</summary>
    public (string First, string Second)? Contradiction
    {
        get
        {
            string[] given = [.. new[] { (StressWeightMm, nameof(StressWeightMm)), (MostStressDays, nameof(MostStressDays)), (MostWaterM3, nameof(MostWaterM3)) }
                .Where(g => g.Item1 is not null).Select(g => g.Item2)];
            return given.Length > 1 ? (given[0], given[1]) : null;
        }
    }

    /// <summary>The options that they stand for: the one place where limits and preferences are read, whoever asks.</summary>
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
            StressOfUnseenYears = MostStressDays is not null,
            MostWaterM3 = MostWaterM3,
            Aim = Aim ?? usual.Aim,
            Shutdown = Shutdown,
            ProgramChanges = PercentsAlone != true,
            AboveFull = PercentsAlone != true,
            SettingWorthLitres = SettingWorthLitres ?? usual.SettingWorthLitres,
            Year = year,
            NearBound = NearBound == true,
        };
    }
}
