using NodaTime;
using Valvewright.Records.Carrying;

namespace Valvewright.App.Shelf;

/// <summary>A site as it lies on this device.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="ETag">The version that the server gave with it.</param>
/// <param name="FetchedAt">When it was fetched.</param>
/// <param name="All">Everything about it.</param>
public sealed record CarriedSite(Guid Id, string Name, string ETag, Instant FetchedAt, CarryView All);
