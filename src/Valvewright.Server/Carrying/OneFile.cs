using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Texts;
using Valvewright.Files.Timelines;
using Valvewright.Files.Visits;
using Valvewright.Records;
using Valvewright.Server.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Sites;
using Valvewright.Store;

namespace Valvewright.Server.Carrying;

/// <summary>
/// A site as one file of HTML that opens from a phone's storage: its cards, the work at its controllers, and a year of what runs when. It
/// asks for nothing from anywhere, and gives its records back as a file (<see cref="Records.Carrying.RecordFile"/>).
/// </summary>
public static class OneFile
{
    private const int DaysAhead = 366;

    /// <summary>The file.</summary>
    /// <param name="store">Where the site is.</param>
    /// <param name="site">The site's id.</param>
    /// <param name="language">Its language.</param>
    /// <param name="clock">What the time is.</param>
    /// <exception cref="CarryingException">The site has no plan that its controllers can hold.</exception>
    public static string Write(SiteStore store, Guid site, Language language, IClock clock)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(clock);
        Instant now = clock.GetCurrentInstant();
        (Kept<SiteValue> kept, Site read, _) = SiteReading.Of(store, site.ToString());
        Kept<PlanValue>[] plans = [.. store.All<PlanValue>(site).Reverse()];
        Kept<PlanValue> plan = plans.FirstOrDefault(p => p.Value.Survey == kept.Value.Digest) ?? plans.FirstOrDefault()
            ?? throw new CarryingException("The site has no plan.", "a site with a plan: make one first");
        SavedPlan saved = Fitting(read, plan.Value.Plan);
        string sheet = new VisitSheet(read, site, $"{kept.Version} {plan.Id}", saved.Plan, saved.From, Limits)
            .Write(LastVisits(store, site), language, now, "carried");
        return OneFileHtml.Write(read.Name, language, sheet, Year(read, saved, LocalDate.Max(saved.From, now.InZone(read.Zone()).Date)),
            Verdict(plan.Value.Proof));
    }

    private static MeasuredLimits Limits => new(
        Measured.MostCellVolts, Measured.FreshCellVolts, Measured.LeastCellVolts, Measured.UsualCells, Measured.ShortOhms,
            Measured.UsualOhms.Least, Measured.UsualOhms.Most, Measured.OpenFromOhms);

    private static SavedPlan Fitting(Site site, string text)
    {
        try
        {
            SavedPlan saved = Plans.PlanReading.Parse(text);
            Plans.PlanReading.Require(site, saved);
            return saved;
        }
        catch (Refusal refusal)
        {
            throw new CarryingException(refusal.Message, "a plan that fits the survey: make a new one");
        }
    }

    private static Dictionary<string, LastVisit> LastVisits(SiteStore store, Guid site) =>
        store.All<VisitValue>(site).Select(v => v.Value).OrderByDescending(v => v.At)
        .GroupBy(v => v.Controller).ToDictionary(g => g.Key, g => LastVisit.Of(
            [.. g.Select(v => new VisitMade(
                v.At, v.AsLeft, v.BatteryVolts, v.MeterM3, v.CoilOhms.Select(c => (c.Station, c.Ohms)).ToListOf()))], Measured.CellsOf(g)));

    /// <summary>A year of openings by the emulator, each as [minutes from the first midnight, seconds, controller, station], site
    /// time.</summary>
    private static string Year(Site site, SavedPlan saved, LocalDate from)
    {
        SiteWaterings waterings = SiteWaterings.Of(site, saved.Plan, from, from.PlusDays(DaysAhead - 1));
        string[] names = [.. saved.Plan.Controllers.Select(c => c.Controller)];
        LocalDateTime first = from.AtMidnight();
        long[][] runs = [.. waterings.Waterings.Select(w => new[]
        {
            (long)Period.Between(first, w.Opens.InZone(site.Zone()).LocalDateTime, PeriodUnits.Minutes).Minutes, w.Seconds,
                Array.IndexOf(names, w.Controller), w.Station,
        })];
        return JsonSerializer.Serialize(new { from = NodaTime.Text.LocalDatePattern.Iso.Format(from), days = DaysAhead, runs });
    }

    /// <summary>The verdict's own words: true, false, or null where the plan was not proven.</summary>
    private static string Verdict(string? proof) =>
        PlanVerdict.Read(proof) switch { null => "null", { Passed: true } => "true", _ => "false" };
}

/// <summary>A site cannot be carried as it is.</summary>
/// <param name="message">Why.</param>
/// <param name="expected">What would be right.</param>
public sealed class CarryingException(string message, string expected) : Exception(message)
{
    /// <summary>What would be right.</summary>
    public string Expected { get; } = expected;
}
