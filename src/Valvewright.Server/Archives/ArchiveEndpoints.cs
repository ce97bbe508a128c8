using Valvewright.Server.Hosting;
using Valvewright.Server.People;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Archives;

/// <summary>A whole site as one file.</summary>
internal sealed class ArchiveEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/archive.zip", Get).GivesText("A whole site as one file.", "application/zip");
        routes.MapPost("/api/archives", Post).Takes<byte[]>(ArchiveReader.LargestBytes, "application/zip").Gives<BroughtIn>(
            "Brings in a site's archive, or a ZIP of a site's folder; records that are there already are left as they are.");
    }

    private IResult Get(string site)
    {
        (Kept<SiteValue> kept, _, _) = SiteReading.Of(store, site);
        return Answers.Bytes(ArchiveWriter.Write(store, kept, clock.GetCurrentInstant()), "application/zip", "site.zip");
    }

    private async Task<IResult> Post(string? by, HttpContext http)
    {
        Stamp stamp = Given.Stamp(by, clock);
        byte[] bytes = await Body.Bytes(http, ArchiveReader.LargestBytes, "application/zip");
        ArchiveContent archive = ArchiveReader.Read(bytes, stamp);
        if (!OwnSites.Takes(http, archive.Site, mayBeNew: true))
        {
            throw IdTaken(archive.Site);
        }

        return Answers.Json(archive.Past is { } past ? WithHistory(archive, past, stamp) : AsTheyStand(archive));
    }

    private BroughtIn WithHistory(ArchiveContent archive, ArchivePast past, Stamp stamp)
    {
        IReadOnlyDictionary<Guid, Outcome> outcomes = store.BringIn(archive.Site, past.Entries, past.Bytes, stamp);
        if (outcomes.Count == 0)
        {
            throw IdTaken(archive.Site);
        }

        return Counted(archive, change => outcomes[change.Id]) with
            { Entries = past.Entries.Count(e => outcomes[e.Record] is Outcome.Made) };
    }

    private BroughtIn AsTheyStand(ArchiveContent archive)
    {
        IReadOnlyList<Outcome> outcomes = store.PutAll(archive.Changes, leaveOthers: true);
        if (outcomes.Count < archive.Changes.Count || outcomes[^1] is Outcome.Missing or Outcome.Taken)
        {
            throw IdTaken(archive.Changes[outcomes.Count - 1].Id);
        }

        Dictionary<Guid, Outcome> byId = archive.Changes.Zip(outcomes).ToDictionary(p => p.First.Id, p => p.Second);
        return Counted(archive, change => byId[change.Id]);
    }

    private static BroughtIn Counted(ArchiveContent archive, Func<Change, Outcome> outcomeOf) => new(
        archive.Site, archive.Changes.Count(c => outcomeOf(c) is Outcome.Made), archive.Changes.Count(c => outcomeOf(c) is Outcome.Same),
        archive.Changes.Where(c => outcomeOf(c) is Outcome.NeedsVersion).Select(c => $"{c.Kind} {c.Id}").ToListOf(),
            archive.Changes.Count(c => outcomeOf(c) is Outcome.Made));

    private static Refusal IdTaken(Guid id) =>
        new Refusal(StatusCodes.Status409Conflict, "id-taken",
            "An id in the archive belongs to another record here, or the site was removed here. Nothing was stored.").Found($"{id}");
}
