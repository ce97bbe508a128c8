using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof;

/// <summary>What is commonly set, to measure a plan against: a July setting kept all year, and a monthly percent table.</summary>
/// <remarks>
/// Both are common practice, with no single source. Run times replace the mean July (southern half: January) KL x ETo of a week, at
/// efficiency by the multiplier 1 / (0.4 + 0.6 DU), in three waterings a week (Monday, Wednesday, Friday); seedbeds in three waterings a
/// day. The practices get the benefit of every doubt: mean ETo from the same years that the plan was made with, run times as fine as the
/// controller takes them, switched off when the plan is, split so that nothing runs off, and neither the supply nor permitted hours hold
/// them up.
/// </remarks>
public static class CommonPractice
{
    private const int WateringsAWeek = 3;

    private static readonly ListOf<LocalTime> OnceADay = [new LocalTime(5, 0)];

    private static readonly ListOf<LocalTime> ThriceADay = [new LocalTime(7, 0), new LocalTime(11, 0), new LocalTime(15, 0)];

    /// <summary>The July setting, on whenever the plan is.</summary>
    public static Plan PeakMonthAllYear(Site site, Plan plan, IReadOnlyList<Climate> known) => Make(site, plan, known, _ => 100);

    /// <summary>The same programs, percent adjust set on the first of every month to mean ETo over that of the peak month.</summary>
    public static Plan MonthlyPercent(Site site, Plan plan, IReadOnlyList<Climate> known)
    {
        double[] eto = MeanEtoByMonth(known);
        double peak = eto[PeakMonth(site) - 1];
        return Make(site, plan, known, month => peak > 0 ? 100 * eto[month - 1] / peak : 100);
    }

    /// <summary>The site as the practices see it: nothing waits, nothing is lost.</summary>
    internal static Site Unhindered(Site site) => site with
    {
        Controllers = site.Controllers
            .Select(c => c with { Profile = c.Profile with { Overlap = OverlapBehaviour.RunsBeside, PauseBetweenStationsSeconds = 0 } })
            .ToListOf(),
    };

    /// <summary>7 north of the equator, 1 south of it.</summary>
    public static int PeakMonth(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Place.LatitudeDeg < 0 ? 1 : 7;
    }

    /// <summary>Mean ETo by month, mm/day, January first.</summary>
    public static double[] MeanEtoByMonth(IReadOnlyList<Climate> years)
    {
        ArgumentNullException.ThrowIfNull(years);
        double[] sum = new double[12];
        int[] days = new int[12];
        foreach (Climate climate in years)
        {
            for (int day = 0; day < climate.Days; day++)
            {
                int month = climate.DateOf(day).Month - 1;
                sum[month] += climate.EtoMm[day];
                days[month]++;
            }
        }

        return [.. sum.Select((s, m) => days[m] == 0 ? 0 : s / days[m])];
    }

    private static Plan Make(Site site, Plan plan, IReadOnlyList<Climate> known, Func<int, double> percentOfMonth)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        int month = PeakMonth(site);
        double etoMm = MeanEtoByMonth(known)[month - 1];
        return new Plan(plan.Site, site.Controllers.Select(c =>
        {
            ControllerPlan own = plan.Controllers.FirstOrDefault(p => p.Controller == c.Name)
                ?? new ControllerPlan(c.Name, new Settings([]), []);
            Program[] programs =
            [
                Program('A', c, OnceADay, [.. c.Zones.Where(z => z.Planting.Stage != PlantStage.NewlySeeded)], etoMm, month,
                    7.0 / WateringsAWeek,
                    new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday])),
                Program('B', c, ThriceADay, [.. c.Zones.Where(z => z.Planting.Stage == PlantStage.NewlySeeded)], etoMm, month,
                    1.0 / ThriceADay.Count,
                    new DaysOfWeek([.. Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None)])),
            ];
            return new ControllerPlan(
                c.Name, new Settings(programs.Where(p => p.RunTimes.Count > 0).ToListOf()), Visits(own, c.Profile.Percent, percentOfMonth));
        }).ToListOf());
    }

    private static Program Program(char letter, SiteController controller, ListOf<LocalTime> starts, Zone[] zones, double etoMm, int month,
        double daysPerWatering, DayRule days) =>
        new(letter, starts, zones.Select(z => new RunTime(z.Station, RunSeconds(z, controller.Profile, etoMm, month, daysPerWatering)))
            .ToListOf(), days);

    private static int RunSeconds(Zone zone, Profile profile, double etoMm, int month, double daysPerWatering)
    {
        double net = zone.Planting.CoefficientIn(month) * etoMm * daysPerWatering;
        double gross = net / zone.ReachingShare;
        double seconds = gross / zone.Emission.PrecipitationRateMmPerHour * 3600;
        return Math.Max(1, (int)Math.Round(seconds / profile.RunTimeStepSeconds)) * profile.RunTimeStepSeconds;
    }

    /// <summary>The plan's own on and off dates, and the first of every month.</summary>
    private static ListOf<Visit> Visits(ControllerPlan plan, PercentRange range, Func<int, double> percentOfMonth)
    {
        const int AnyYear = 2001;
        Spell[] spells = [.. Spell.Of(plan, new LocalDate(AnyYear, 1, 1), new LocalDate(AnyYear, 12, 31))];
        IEnumerable<LocalDate> dates = Enumerable.Range(1, 12).Select(m => new LocalDate(AnyYear, m, 1)).Concat(spells.Select(s => s.From))
            .Distinct().Order();
        return dates
            .Select(d => new Visit(new AnnualDate(d.Month, d.Day), spells.First(s => s.From <= d && d <= s.To).Percent == 0 ? 0
                : Nearest(range, percentOfMonth(d.Month))))
            .ToListOf();
    }

    private static int Nearest(PercentRange range, double percent) => range.Settings().Append(100).MinBy(p => Math.Abs(p - percent));
}
