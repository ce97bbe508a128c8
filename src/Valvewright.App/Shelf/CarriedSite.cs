using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records.Carrying;

namespace Valvewright.App.Shelf;

/// <summary>A site as it lies on this device.</summary>
/// <remarks>
/// Thirty years of days are most of a site, and most pages never look at them: a card has to open at once in the field. They lie beside the
/// rest as text that is read when it is first asked for.
/// </remarks>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="ETag">The version that the server gave with it.</param>
/// <param name="FetchedAt">When it was fetched.</param>
/// <param name="All">Everything about it but the weather.</param>
/// <param name="WeatherText">The weather as JSON; null where there is none, or where it still stands in <paramref name="All"/>.</param>
public sealed record CarriedSite(Guid Id, string Name, string ETag, Instant FetchedAt, CarryView All, string? WeatherText = null)
{
    private readonly Lazy<CarriedWeather?> weather = new(() => WeatherText is null ? All.Weather : Json.Read<CarriedWeather>(WeatherText));

    private readonly Lazy<ListOf<OpenedPlan>> plans = new(() => All.Plans.Select(p => new OpenedPlan(p)).ToListOf());

    /// <summary>Its plans, the latest first; each is read once.</summary>
    [JsonIgnore]
    public ListOf<OpenedPlan> Plans => plans.Value;

    /// <summary>The weather; null where there is none.</summary>
    [JsonIgnore]
    public CarriedWeather? Weather => weather.Value;

    /// <summary>A site as just fetched.</summary>
    public static CarriedSite Of(Guid id, string etag, Instant fetchedAt, CarryView all)
    {
        ArgumentNullException.ThrowIfNull(all);
        return new CarriedSite(
            id, all.Site.Name, etag, fetchedAt, all with { Weather = null }, all.Weather is null ? null : System.Text.Json.JsonSerializer.Serialize(all.Weather, Json.Compact));
    }

    /// <inheritdoc/>
    public bool Equals(CarriedSite? other) => other is not null && Id == other.Id && ETag == other.ETag && FetchedAt == other.FetchedAt && WeatherText == other.WeatherText && All == other.All;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Id, ETag, FetchedAt);
}
