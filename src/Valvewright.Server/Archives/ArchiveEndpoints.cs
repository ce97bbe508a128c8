using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Server.Hosting;
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
        routes.MapPost("/api/archives", Post).Takes<byte[]>(ArchiveReader.LargestBytes, "application/zip").Gives<BroughtIn>("Brings in a site's archive, or a ZIP of a site's folder; records that are there already are left as they are.");
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
        (Guid site, IReadOnlyList<Change> changes) = ArchiveReader.Read(bytes, stamp);
        IReadOnlyList<Outcome> outcomes = store.PutAll(changes, leaveOthers: true);
        if (outcomes.Count < changes.Count || outcomes[^1] is Outcome.Missing or Outcome.Taken)
        {
            throw new Refusal(StatusCodes.Status409Conflict, "id-taken", "An id in the archive belongs to another record here, or the site was removed here. Nothing was stored.")
                .With("found", changes[outcomes.Count - 1].Id);
        }

        ListOf<string> different = changes.Zip(outcomes).Where(p => p.Second is Outcome.NeedsVersion).Select(p => $"{p.First.Kind} {p.First.Id}").ToListOf();
        return Answers.Json(new BroughtIn(site, outcomes.Count(o => o is Outcome.Made), outcomes.Count(o => o is Outcome.Same), different));
    }
}
