using Valvewright.Cli.Commands.Rounds;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Files.Measured;
using Valvewright.Records;
using Valvewright.Server.Nights;
using Valvewright.Store;
using Valvewright.Work;
using Valvewright.Work.Accounts;
using Valvewright.Work.Rounds;

namespace Valvewright.Cli.Commands.Accounts;

/// <summary>Gathers what is known of sites' water from folders of files or from a store.</summary>
internal sealed class WaterGiven(Progress progress)
{
    /// <summary>Sites of folders: each a site's own, or one that holds such folders.</summary>
    /// <param name="folders">The folders.</param>
    /// <param name="doneFile">A table of visits that were made; null for none.</param>
    public ListOf<WaterKnown> OfFolders(IReadOnlyList<string> folders, string? doneFile)
    {
        SiteFile[] files = [.. folders.SelectMany(SitesGiven.Sites).Select(SiteFile.Read)];
        ILookup<string, VisitDone> done = RoundsTables.Done(doneFile, [.. files.Select(f => f.Site)])
            .ToLookup(v => v.Site, v => v.Visit);
        return files.Select(f => OfFile(f, done[f.Site.Name])).ToListOf();
    }

    /// <summary>Sites of a store.</summary>
    public ListOf<WaterKnown> OfStore(string file)
    {
        using SiteStore store = SitesGiven.Open(file);
        return store.Sites().Select(s => OfRecords(store, s)).ToListOf();
    }

    private WaterKnown OfFile(SiteFile file, IEnumerable<VisitDone> visits)
    {
        progress.Step($"Looking at {file.Site.Name}");
        Plan? plan = SitesGiven.PlanNextTo(file)?.Plan;
        return new WaterKnown(
            file.Site, plan, Weather(() => SiteYears.Read(file.Site)),
            visits.Select(v => LeftByVisit.OfPercent(plan, v.Controller, v.On.At(LocalTime.Noon), v.Percent)).ToListOf(),
            (SitesGiven.MeasuredNextTo(file)?.Meters ?? []).Select(m => new ReadingsOfMeter(
                m.Supply, m.Readings.Select(r => (r.On.At(LocalTime.Noon), r.M3)).ToListOf())).ToListOf());
    }

    private WaterKnown OfRecords(SiteStore store, Kept<SiteValue> kept)
    {
        progress.Step($"Looking at {kept.Value.Name}");
        Site site = SitesGiven.SurveyOf(kept.Value);
        Plan? plan = Nightly.FactsOf(store, kept, site).Plan;
        VisitValue[] visits = [.. store.All<VisitValue>(kept.Id).Select(v => v.Value).OrderBy(v => v.At)];
        return new WaterKnown(
            site, plan, Weather(() => Nightly.Years(store, kept, site)),
            visits.Select(v => LeftByVisit.Of(site, plan, v.Controller, v.At, v.AsLeft)).OfType<LeftByVisit>().ToListOf(),
            site.Controllers.GroupBy(c => c.Supply, c => c.Name).Select(own => new ReadingsOfMeter(own.Key, visits
                .Where(v => v.MeterM3 is not null && own.Contains(v.Controller)).Select(v => (v.At, v.MeterM3!.Value)).ToListOf()))
                .ToListOf());
    }

    /// <summary>A site without weather that can be used has accounts all the same; they say what is left out.</summary>
    private static SiteYears? Weather(Func<SiteYears> read)
    {
        try
        {
            return read();
        }
        catch (RefusalException)
        {
            return null;
        }
    }
}
