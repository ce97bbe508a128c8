using System.Buffers.Binary;
using System.Security.Cryptography;
using Valvewright.Files.Problems;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;
using Valvewright.Server.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Visits;
using Valvewright.Store;

namespace Valvewright.Server.Sites;

/// <summary>All of a site in one answer, for where there is no signal.</summary>
internal sealed class CarryEndpoints(SiteStore store) : IEndpoints
{
    public void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/api/sites/{site}/carry.json", Get).Gives<CarryView>("All that a page needs to work on the site without a signal.");

    private IResult Get(string site, HttpContext http)
    {
        Guid id = Given.Id(site, "site");
        return Answers.Tagged(http, TagOf(store.Versions(id)), () => Answers.CompactJson(Of(site, http)));
    }

    private CarryView Of(string id, HttpContext http)
    {
        (Kept<SiteValue> kept, Site site, ListOf<Problem> questions) = SiteReading.Of(store, id);
        (CarriedWeather? weather, ProblemDocument? problem) = Weather(kept.Id, site);
        return new CarryView(
            SiteEndpoints.View(store, kept, site, questions), weather, problem,
            store.All<PlanValue>(kept.Id).Reverse().Select(p => PlanEndpoints.View(p, p.Value.Survey == kept.Value.Digest)).ToListOf(),
            store.All<ReadingValue>(kept.Id).Select(ReadingEndpoints.View).ToListOf(), VisitEndpoints.All(store, kept.Id))
        {
            Traces = store.All<TraceValue>(kept.Id).Select(TraceEndpoints.View).ToListOf(),
            ConfirmedCauses = store.Everywhere<TraceValue>().Where(t => OwnSites.Sees(http, t.Site))
                .Select(t => t.Value.Trace.Confirmed).OfType<string>()
                .Order(StringComparer.Ordinal).ToListOf(),
        };
    }

    private (CarriedWeather? Weather, ProblemDocument? Problem) Weather(Guid id, Site site)
    {
        try
        {
            Work.SiteYears years = SiteReading.Years(store, id, site);
            return (CarriedWeather.Of(years.Weather.Record!, years.Built, years.Split), null);
        }
        catch (Work.RefusalException refusal)
        {
            return (null, ProblemWriter.ViewOf(refusal));
        }
    }

    /// <summary>Changes with any record of the site, and with the program that makes the answer.</summary>
    private static string TagOf(ListOf<(Guid Id, long Version)> versions)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> number = stackalloc byte[8];
        hash.AppendData(typeof(CarryEndpoints).Module.ModuleVersionId.ToByteArray());
        hash.AppendData(typeof(Site).Module.ModuleVersionId.ToByteArray());
        foreach ((Guid id, long version) in versions)
        {
            BinaryPrimitives.WriteInt64BigEndian(number, version);
            hash.AppendData(id.ToByteArray(bigEndian: true));
            hash.AppendData(number);
        }

        return $"\"{Convert.ToHexStringLower(hash.GetHashAndReset())[..32]}\"";
    }
}
