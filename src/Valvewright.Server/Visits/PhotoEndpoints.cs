using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Visits;

/// <summary>Photos of visits.</summary>
internal sealed class PhotoEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    /// <summary>A telephone's photo at full size has less.</summary>
    public const int LargestBytes = 12_000_000;

    private const int MostOfAVisit = 24;

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/visits/{visit}/photos/{photo}", Get).GivesText("A photo.", "image/jpeg");
        routes.MapPut("/api/sites/{site}/visits/{visit}/photos/{photo}", Put).Takes<byte[]>(LargestBytes, PhotoBytes.Types)
            .Gives<PhotoView>("Appends a photo; the visit must have been sent before.");
        routes.MapDelete("/api/sites/{site}/visits/{visit}/photos/{photo}", Delete).GivesNothing("Removes a photo.");
    }

    private IResult Get(string site, string visit, string photo, HttpContext http)
    {
        Kept<PhotoValue> kept = Find(Given.Id(site, "site"), visit, photo) ?? throw Refusal.NotFound("photo");
        return Answers.Tagged(http, kept.Version, () => Results.Bytes(store.Blob(kept.Value.Blob)!, kept.Value.Type));
    }

    private async Task<IResult> Put(
        string site, string visit, string photo, string? by, [FromHeader(Name = "If-Match")] string? ifMatch, HttpContext http)
    {
        Guid siteId = Given.Id(site, "site"), visitId = Given.Id(visit, "visit"), id = Given.Id(photo, "photo");
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        if (store.Find<VisitValue>(siteId, visitId) is null)
        {
            throw Refusal.NotFound("visit");
        }

        if (store.All<PhotoValue>(siteId).Where(p => p.Value.Visit == visitId && p.Id != id).Take(MostOfAVisit).Count() == MostOfAVisit)
        {
            throw new Refusal(StatusCodes.Status409Conflict, "too-many", $"A visit has at most {MostOfAVisit} photos. Nothing was stored.");
        }

        byte[] bytes = await Body.Bytes(http, LargestBytes, PhotoBytes.Types);
        string type = Body.TypeOf(http.Request);
        if (PhotoBytes.TypeOf(bytes) is not { } found || found != type)
        {
            throw new Refusal(StatusCodes.Status415UnsupportedMediaType, "wrong-type",
                "The bytes are not a picture of the type that was said. Nothing was stored.")
                .Found(PhotoBytes.TypeOf(bytes) is { } other ? (Sentence)$"{other}" : "no picture").Expecting($"{type}");
        }

        if (PhotoSize.Of(bytes) is { } size && !size.IsShown)
        {
            throw new Refusal(StatusCodes.Status415UnsupportedMediaType, "too-large",
                "A browser does not show a picture of this size. Nothing was stored.")
                .Found($"{size.Width} x {size.Height} points").Expecting(
                    $"at most {PhotoSize.LargestSide} points a side and {PhotoSize.MostPoints / 1_000_000} million in all");
        }

        PhotoValue value = new(visitId, type, SiteStore.DigestOf(bytes), bytes.Length);
        Kept<PhotoValue> kept = Keeping.Settle(store, id, store.Put(siteId, id, value, expected, stamp, bytes), value, expected, http);
        return Answers.Json(
            new PhotoView(kept.Id, kept.Version, kept.Value.Type, kept.Value.Bytes, kept.Value.Blob), http.Response.StatusCode);
    }

    private IResult Delete(string site, string visit, string photo, string? by, [FromHeader(Name = "If-Match")] string? ifMatch)
    {
        Guid siteId = Given.Id(site, "site");
        Kept<PhotoValue> kept = Find(siteId, visit, photo) ?? throw Refusal.NotFound("photo");
        return Removing.Of<PhotoValue>(store, siteId, kept.Id, ifMatch, Given.Stamp(by, clock), "photo");
    }

    private Kept<PhotoValue>? Find(Guid site, string visit, string photo)
    {
        Guid visitId = Given.Id(visit, "visit");
        return store.Find<PhotoValue>(site, Given.Id(photo, "photo")) is { } kept && kept.Value.Visit == visitId ? kept : null;
    }
}

/// <summary>Knows pictures by their first bytes.</summary>
internal static class PhotoBytes
{
    /// <summary>Types that are taken.</summary>
    public static string[] Types { get; } = ["image/jpeg", "image/png", "image/webp"];

    /// <summary>The type by the signature that its standard gives (JPEG: ISO/IEC 10918-1 B.1.1.3; PNG: ISO/IEC 15948, 5.2; WebP: RFC 9649,
    /// 2.5).</summary>
    public static string? TypeOf(ReadOnlySpan<byte> bytes) =>
        bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? Types[0]
        : bytes.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]) ? Types[1]
        : bytes.Length >= 12 && bytes.StartsWith("RIFF"u8) && bytes[8..].StartsWith("WEBP"u8) ? Types[2]
        : null;
}
