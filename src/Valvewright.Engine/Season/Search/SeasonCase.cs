using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season.Search.Programs;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season.Search;

/// <summary>A season's whole problem as numbers: controllers, years, possible days and how much each year counts.</summary>
internal sealed class SeasonCase
{
    private const int Full = 100;
    private const int MostZoneYearsOfSmall = 60;

    private SeasonCase(Site site, Plan plan, SeasonOptions options, VisitDays days, ControllerCase[] controllers, IReadOnlyList<Climate> years)
    {
        (Site, Plan) = (site, plan);
        Options = options;
        Days = days;
        Controllers = controllers;
        YearCount = years.Count;
        Rules = new SeasonRules(site, plan, new LocalDate(options.Year ?? years.Max(y => y.Last.Year) + 1, 1, 1));
        DayIndex = [.. years.Select(y => IndexesOf(days, y))];
        YearDays = [.. years.Select(y => y.Days)];
    }

    private SeasonCase(SeasonCase same, SeasonOptions options, ControllerCase[] controllers)
    {
        (Site, Plan, Options, Days, Controllers, YearCount, Rules) = (same.Site, same.Plan, options, same.Days, controllers, same.YearCount, same.Rules);
        (DayIndex, YearDays) = (same.DayIndex, same.YearDays);
    }

    public Site Site { get; }

    /// <summary>The programs; the visits that it carries do not matter.</summary>
    public Plan Plan { get; }

    public SeasonOptions Options { get; }

    public VisitDays Days { get; }

    /// <summary>Whether what visits set breaks a rule.</summary>
    public SeasonRules Rules { get; }

    public ControllerCase[] Controllers { get; }

    public int YearCount { get; }

    /// <summary>Area of all zones.</summary>
    public double AreaM2 => Controllers.Sum(c => c.Zones.Sum(z => z.Zone.AreaM2));

    /// <summary>By year: the day of the year's record on which each possible day lies.</summary>
    public int[][] DayIndex { get; }

    /// <summary>By year: days of its record.</summary>
    public int[] YearDays { get; }

    /// <exception cref="ArgumentException">The years do not begin where the hemisphere's years begin, or are no whole years.</exception>
    public static SeasonCase Of(Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only = null)
    {
        if (years.Count == 0)
        {
            throw new ArgumentException("A season needs at least one year of weather.");
        }

        VisitDays days = VisitDays.Of(options, site.Place.LatitudeDeg < 0);
        foreach (Climate year in years)
        {
            if (year.First.Month != days.YearBegins.Month || year.First.Day != 1 || year.Days is < 365 or > 366)
            {
                throw new ArgumentException($"A year of record runs {year.First:uuuu-MM-dd} to {year.Last:uuuu-MM-dd}; a whole year from 1 {days.YearBegins:MMMM} is needed.");
            }
        }

        ControllerCase[] controllers =
        [
            .. site.Controllers.Where(c => only is null || only.Contains(c.Name)).Select(c => ControllerCase.Of(c, plan.For(c.Name), years, Full, options.ProgramChanges)),
        ];
        return new SeasonCase(site, plan, options, days, controllers, years);
    }

    /// <summary>The same problem with percents above 100 at some controllers: they follow the others, whose indexes stay.</summary>
    public SeasonCase Wider(IReadOnlyDictionary<string, int> largestPercents, IReadOnlyList<Climate> years, SeasonOptions options) => new(
        this, options,
        [
            .. Controllers.Select(c => largestPercents.TryGetValue(c.Controller.Name, out int largest)
                ? ControllerCase.Of(c.Controller, Plan.For(c.Controller.Name), years, largest, options.ProgramChanges)
                : c),
        ]);

    /// <summary>The same problem at another exchange rate.</summary>
    public SeasonCase At(double rateMm) => new(this, Options with { StressWeightMm = rateMm }, Controllers);

    /// <summary>The same problem within another limit of stress.</summary>
    public SeasonCase Within(double mostStressDays) => new(this, Options with { MostStressDays = mostStressDays }, Controllers);

    /// <summary>The same problem with another aim.</summary>
    public SeasonCase For(SeasonAim aim) => new(this, Options with { Aim = aim }, Controllers);

    /// <summary>The same problem with some controllers whose programs stay as they are.</summary>
    public SeasonCase Without(IReadOnlyCollection<int> changing) => new(this, Options, [.. Controllers.Select((c, i) => changing.Contains(i) ? c.OfPercentsAlone() : c)]);

    /// <summary>Cost of a zone's water and stress over its area, L: 1 mm over 1 m2 is 1 L.</summary>
    public double Cost(ZoneCase zone, double waterMm, double stressDays) =>
        zone.Zone.AreaM2 * (waterMm + Options.StressWeightMm * stressDays);

    /// <summary>Whether a table of costs with every variant can be made for every move of a date.</summary>
    public bool IsSmall => YearCount * Controllers.Sum(c => c.Zones.Length) <= MostZoneYearsOfSmall;

    /// <summary>Whether a percent (by index, 0 is off) may be set at a visit on a possible day: at the winter shutdown only off.</summary>
    public bool Allows(int day, int percent) => percent == 0 || day != Days.ShutdownIndex;

    /// <summary>What a year's keying costs beside the percents, L.</summary>
    public double KeysCost(Schedule schedule) => Options.SettingWorthLitres * KeysOf(schedule);

    /// <summary>The same at some controllers.</summary>
    public double KeysCost(Schedule schedule, IEnumerable<int> controllers) => Options.SettingWorthLitres * controllers.Sum(c => KeysOf(schedule, c));

    /// <summary>Settings that a year's visits key in beside the percents.</summary>
    public int KeysOf(Schedule schedule) => Enumerable.Range(0, Controllers.Length).Sum(c => KeysOf(schedule, c));

    private int KeysOf(Schedule schedule, int controller) => schedule.Variants is null ? 0 : schedule.Variants[controller].Select((v, p) => Controllers[controller].Programs[p].KeysOf(v)).Sum();

    /// <summary>What each controller is left at, visit by visit.</summary>
    public ListOf<ControllerSeason> InWords(Schedule schedule) => Controllers.Select((c, i) => new ControllerSeason(c.Controller.Name, schedule.Percents[i].Select(p => c.Percents[p]).ToListOf())
    {
        Programs = schedule.Variants is null || schedule.Variants[i].All(v => v.All(x => x == 0)) ? [] : ProgramsByVisit(i, schedule),
    }).ToListOf();

    /// <summary>All programs of a controller after a visit.</summary>
    public ListOf<Program> ProgramsAfter(int controller, Schedule schedule, int visit)
    {
        ControllerCase own = Controllers[controller];
        return Plan.For(own.Controller.Name).Settings.Programs
            .Select(p => Array.FindIndex(own.Programs, c => c.Variants[0] == p) is >= 0 and var at ? own.Programs[at].Variants[schedule.VariantsOf(controller, at)?[visit] ?? 0] : p)
            .ToListOf();
    }

    /// <summary>All programs of a controller after each visit that changes them, empty after the others. A first visit brings them where they differ from the plan's all year.</summary>
    private ListOf<ListOf<Program>> ProgramsByVisit(int controller, Schedule schedule)
    {
        int[][] variants = schedule.Variants![controller];
        int visits = schedule.Dates.Length;
        bool steady = variants.All(v => v.Distinct().Count() == 1);
        return Enumerable.Range(0, visits)
            .Select(v => (steady && v == 0) || variants.Any(p => p[v] != p[(v + visits - 1) % visits]) ? ProgramsAfter(controller, schedule, v) : ListOf.Create<Program>([]))
            .ToListOf();
    }

    private static int[] IndexesOf(VisitDays days, Climate year)
    {
        int[] indexes = new int[days.Count];
        for (int i = 0; i < indexes.Length; i++)
        {
            LocalDate date = days.YearBegins.PlusDays(days.Offsets[i]);
            AnnualDate annual = new(date.Month, date.Day);
            indexes[i] = year.DayOf(annual.InYear(year.First.Year + date.Year - days.YearBegins.Year));
        }

        return indexes;
    }
}

/// <summary>A season as the search sees it: possible days by index, rising, and a percent index for each controller from each of them on.</summary>
/// <param name="Dates">Indexes of possible days. The last one's setting holds over the new year until the first.</param>
/// <param name="Percents">By controller and visit, indexes of its percents.</param>
/// <param name="Variants">By controller, program and visit, indexes of the program's variants; null where all stay as they are.</param>
internal sealed record Schedule(int[] Dates, int[][] Percents, int[][][]? Variants = null)
{
    /// <summary>The variants of one program by visit; null where it stays as it is.</summary>
    public int[]? VariantsOf(int controller, int program) => program < 0 ? null : Variants?[controller][program];
}
