using System.Text.Json;
using System.Text.Json.Serialization;
using Valvewright.Records.Carrying;

namespace Valvewright.App.Shelf;

/// <summary>A site as it lies on this device.</summary>
/// <remarks>
/// Thirty years of days and the proofs of plans are most of a site, and most pages never look at them: a card has to open at once in the
/// field. They lie beside the rest, each on a line of its own, and are read when they are first asked for.
/// </remarks>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="ETag">The version that the server gave with it.</param>
/// <param name="FetchedAt">When it was fetched.</param>
/// <param name="All">Everything about it but the weather and the proofs.</param>
public sealed record CarriedSite(Guid Id, string Name, string ETag, Instant FetchedAt, CarryView All)
{
    private const byte EndOfLine = (byte)'\n';
    private Lazy<CarriedWeather?> weather = new(All.Weather);
    private Lazy<ListOf<OpenedPlan>> plans = new(() => All.Plans.Select(p => new OpenedPlan(p)).ToListOf());
    private ReadOnlyMemory<byte> beside;

    /// <summary>The weather; null where there is none.</summary>
    [JsonIgnore]
    public CarriedWeather? Weather => weather.Value;

    /// <summary>Its plans, the latest first; each is read once.</summary>
    [JsonIgnore]
    public ListOf<OpenedPlan> Plans => plans.Value;

    /// <summary>Whether it was made on this device and the server does not have it yet.</summary>
    [JsonIgnore]
    public bool IsNotSent => All.Site.Version == 0;

    /// <summary>A site as just fetched.</summary>
    public static CarriedSite Of(Guid id, string etag, Instant fetchedAt, CarryView all)
    {
        CarryView rest = all with { Weather = null, Plans = all.Plans.Select(p => p with { Proof = null }).ToListOf() };
        using MemoryStream lines = new();
        foreach (byte[] line in (byte[][])[Line(all.Weather), .. all.Plans.Select(p => Line(p.Proof))])
        {
            lines.Write(line);
            lines.WriteByte(EndOfLine);
        }

        return new CarriedSite(id, all.Site.Name, etag, fetchedAt, rest).With(lines.ToArray());
    }

    /// <summary>A site as it lies there.</summary>
    /// <exception cref="JsonException">It is none.</exception>
    public static CarriedSite Read(ReadOnlyMemory<byte> kept)
    {
        int end = kept.Span.IndexOf(EndOfLine);
        CarriedSite site = PageJson.Read<CarriedSite>(end < 0 ? kept.Span : kept.Span[..end]) ?? throw new JsonException(
            "There is no site.");
        // What is not beside it stands within it, as it did before there were lines.
        return end < 0 ? site : site.With(kept[(end + 1)..]);
    }

    /// <summary>As it is laid on the device.</summary>
    public byte[] Write() => beside.IsEmpty ? Line(this) : [.. Line(this), EndOfLine, .. beside.Span];

    /// <inheritdoc/>
    public bool Equals(CarriedSite? other) => other is not null && Id == other.Id && ETag == other.ETag && FetchedAt == other.FetchedAt
        && All == other.All && beside.Span.SequenceEqual(other.beside.Span);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Id, ETag, FetchedAt);

    private static byte[] Line<T>(T value) => JsonSerializer.SerializeToUtf8Bytes(value, PageJson.Compact);

    /// <summary>The weather stands first, then the proof of each plan.</summary>
    private CarriedSite With(ReadOnlyMemory<byte> lines)
    {
        beside = lines;
        weather = new(() => PageJson.Read<CarriedWeather?>(LineOf(lines, 0)));
        plans = new(() => All.Plans.Select((p, n) => new OpenedPlan(p, LineOf(lines, n + 1).ToArray())).ToListOf());
        return this;
    }

    private static ReadOnlySpan<byte> LineOf(ReadOnlyMemory<byte> lines, int number)
    {
        ReadOnlySpan<byte> rest = lines.Span;
        for (int i = 0; i < number; i++)
        {
            rest = rest[(rest.IndexOf(EndOfLine) + 1)..];
        }

        return rest[..rest.IndexOf(EndOfLine)];
    }
}
