using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Power;
using Valvewright.Engine.Weather;
using Valvewright.Files.Faults;
using Valvewright.Files.Measured;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Server.Nights;
using Valvewright.Store;
using Valvewright.Store.Files;
using Valvewright.Work;
using Valvewright.Work.Measured;
using Valvewright.Work.Rounds;

namespace Valvewright.Cli.Commands.Rounds;

/// <summary>A site that rounds look at: what is known of it, and why its advice is missing.</summary>
/// <param name="Facts">What is known.</param>
/// <param name="NoAdvice">Why this year's weather advises nothing; null where it does.</param>
internal sealed record GivenSite(SiteFacts Facts, Sentence? NoAdvice);

/// <summary>Gathers what is known of sites from folders of files or from a store.</summary>
internal sealed class SitesGiven(LocalDate today, Language language, Progress progress)
{
    /// <summary>The year's weather next to a site file, where the survey's own record does not reach so far.</summary>
    private const string SoFarName = "so-far.csv";

    private const string TraceFolder = "traces";

    /// <summary>Sites of folders: each a site's own, or one that holds such folders.</summary>
    /// <param name="folders">The folders.</param>
    /// <param name="doneFile">A table of visits that were made; null for none.</param>
    public ListOf<GivenSite> OfFolders(IReadOnlyList<string> folders, string? doneFile)
    {
        SiteFile[] files = [.. folders.SelectMany(Sites).Select(SiteFile.Read)];
        ILookup<string, VisitDone> done = RoundsTables.Done(doneFile, [.. files.Select(f => f.Site)])
            .ToLookup(v => v.Site, v => v.Visit);
        return files.Select(f => OfFile(f, done[f.Site.Name].ToListOf())).ToListOf();
    }

    /// <summary>Sites of a store.</summary>
    public ListOf<GivenSite> OfStore(string file)
    {
        using SiteStore store = Open(file);
        return store.Sites().Select(s => OfRecords(store, s)).ToListOf();
    }

    /// <summary>Refuses folders and a store together, and neither.</summary>
    internal static void RequireOneSource(string[] folders, string? store, Sentence why)
    {
        if ((folders.Length == 0) == (store is null))
        {
            throw new ProblemsException(new Problem(
                "sites", 0, 0, folders.Length == 0 ? "nothing" : "both", "folders of sites, or --store", null, why));
        }
    }

    /// <summary>Refuses two sites of one name.</summary>
    internal static void RequireNames(IEnumerable<string> names)
    {
        if (names.GroupBy(n => n).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ProblemsException(new Problem(
                "sites", 0, 0, twice.Key, "names that differ", null, "two sites have this name"));
        }
    }

    /// <summary>Opens a store that is there.</summary>
    internal static SiteStore Open(string file)
    {
        StorePlace place = StorePlace.Of(file);
        return place.Exists() ? SiteStore.Open(file) : throw new ProblemsException(new Problem(
            place.Shown, 0, 0, "no such file", "a store", null, "there is no store here"));
    }

    /// <summary>The survey of a site of a store.</summary>
    internal static Site SurveyOf(SiteValue kept)
    {
        Site? site = SurveyFiles.ParseApart(kept.Survey, "survey").Site;
        return site ?? throw new ProblemsException(new Problem(
            kept.Name, 0, 0, "a survey of an older version", "a survey that this version reads", null, "this survey can't be used"));
    }

    /// <summary>The measurements next to a site file; null where there are none.</summary>
    internal static MeasuredSite? MeasuredNextTo(SiteFile file)
    {
        string measured = Path.Combine(Path.GetDirectoryName(file.Path) is { Length: > 0 } own ? own : ".", MeasuredFiles.UsualName);
        return !File.Exists(measured) ? null : MeasuredFiles.Read(measured, file.Site) switch
            { { Site: { } read } => read, var wrong => throw new ProblemsException(wrong.Problems) };
    }

    /// <summary>The usual plan of a site file; null where none was saved.</summary>
    internal static SavedPlan? PlanNextTo(SiteFile file)
    {
        SavedPlan? saved = File.Exists(file.UsualPlan) ? file.ReadPlan(null) : null;
        if (saved is not null)
        {
            file.RequireKeyable(saved, null);
        }

        return saved;
    }

    internal static IEnumerable<string> Sites(string path)
    {
        if (!Directory.Exists(path) || File.Exists(Path.Combine(path, SurveyFiles.UsualName)))
        {
            return [path];
        }

        string[] inside = [.. Directory.EnumerateDirectories(path).Where(d => File.Exists(Path.Combine(d, SurveyFiles.UsualName)))
            .Order(StringComparer.Ordinal)];
        return inside.Length > 0 ? inside : throw new ProblemsException(new Problem(
            path, 0, 0, "no site file", $"a folder with {SurveyFiles.UsualName}, or with folders of sites", null,
                "there are no sites here"));
    }

    private GivenSite OfFile(SiteFile file, ListOf<VisitDone> visits)
    {
        Site site = file.Site;
        progress.Step($"Looking at {site.Name}");
        string folder = Path.GetDirectoryName(file.Path) is { Length: > 0 } own ? own : ".";
        SavedPlan? saved = PlanNextTo(file);
        MeasuredSite? measured = MeasuredNextTo(file);
        SiteFacts facts = new() { Site = site, Plan = saved?.Plan, LastVisits = visits, Faults = Traces(Path.Combine(folder,
            TraceFolder), site) };
        if (saved is null)
        {
            return new GivenSite(facts, "no saved plan");
        }

        string soFarFile = Path.Combine(folder, SoFarName);
        SiteYears? years = site.Weather is null ? null : SiteYears.Read(site);
        facts = facts with { Batteries = Batteries(site, saved.Plan, measured, years), Meters = Meters(site, saved.Plan, measured) };
        return Advised(facts, years, File.Exists(soFarFile) ? soFarFile : null);
    }

    private GivenSite Advised(SiteFacts facts, SiteYears? years, string? soFarFile)
    {
        Climate? soFar = soFarFile is null || years is null || facts.Plan!.Controllers.All(c => c.Visits.Count == 0) ? null
            : YearAdvice.SoFar(facts.Site, soFarFile, SeasonAdvice.Read(facts.Site, soFarFile), today);
        SiteAdvice advice = SiteAdvice.Of(facts, years, soFar, today);
        return new GivenSite(facts with { Advice = advice.Controllers }, advice.Missing);
    }

    private ListOf<BatteryDue> Batteries(Site site, Plan plan, MeasuredSite? measured, SiteYears? years)
    {
        YearOfTemperatures temperatures = (years is null ? null
            : YearOfTemperatures.Of(years.Weather.Record!.Days.Select(d => (d.Date, d.TminC, d.TmaxC)))) ?? YearOfTemperatures.Steady(10);
        return (measured?.Batteries ?? []).Where(b => b.Since <= today).Select(b => new BatteryDue(
            b.Controller, BatteryForecast.Of(site, plan, b, temperatures).Life.ChangeBy, null)).ToListOf();
    }

    /// <summary>The latest interval of each meter; readings after the date are not known yet.</summary>
    private ListOf<MeterSeen> Meters(Site site, Plan plan, MeasuredSite? measured) =>
        (measured?.Meters ?? []).Select(m => m with { Readings = m.Readings.Where(r => r.On <= today).ToListOf() })
            .Select(m => (m.Supply, MeterForecast.Of(site, plan, m).Intervals))
            .Where(m => m.Intervals.Count > 0)
            .Select(m => new MeterSeen(m.Supply, m.Intervals[^1])).ToListOf();

    private ListOf<OpenFault> Traces(string folder, Site site) => !Directory.Exists(folder) ? []
        : Open(Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal).Select(f => TraceFiles.Read(f) switch
            { { Trace: { } trace } => trace, var wrong => throw new ProblemsException(wrong.Problems) }), site);

    private ListOf<OpenFault> Open(IEnumerable<TraceCase> traces, Site site) => traces
        .Where(t => t.Confirmed is null && site.Controllers.Any(c => c.Name == t.Controller))
        .Select(t => new OpenFault(
            t.Controller, t.Station, new TraceSaid(FaultModelFiles.Shipped, site, language).Complaint(t.Complaint),
                t.Began.Date)).ToListOf();

    private GivenSite OfRecords(SiteStore store, Kept<SiteValue> kept)
    {
        progress.Step($"Looking at {kept.Value.Name}");
        Site site = SurveyOf(kept.Value);
        SiteFacts facts = Nightly.FactsOf(store, kept, site);
        SiteAdvice advice = Nightly.Kept(store, kept.Id, today) ?? Nightly.Of(store, kept, facts, today);
        VisitValue[] visits = [.. store.All<VisitValue>(kept.Id).Select(v => v.Value).OrderBy(v => v.At)];
        return new GivenSite(
            facts with
            {
                Faults = Open(store.All<TraceValue>(kept.Id).Select(t => t.Value.Trace), site),
                Batteries = visits.Where(v => v.BatteryVolts is not null).GroupBy(v => v.Controller).SelectMany(Low).ToListOf(),
                Advice = advice.Controllers,
            },
            advice.Missing);
    }

    private static IEnumerable<BatteryDue> Low(IEnumerable<VisitValue> visits)
    {
        VisitValue[] all = [.. visits];
        double volts = all[^1].BatteryVolts!.Value;
        return Records.Measured.OfBattery(volts, Records.Measured.CellsOf(all)) == BatteryState.Change
            ? [new BatteryDue(all[^1].Controller, all[^1].At.Date, volts)] : [];
    }
}
