using Valvewright.Work.Rounds;

namespace Valvewright.Work.Search.Rounds;

/// <summary>A named place: a site, or where people start and end.</summary>
/// <param name="Name">Its name, as the travel table has it.</param>
/// <param name="Place">Where it is.</param>
public sealed record NamedPlace(string Name, Place Place);

/// <summary>A date that was promised to a site.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="On">The date.</param>
/// <param name="From">Earliest arrival; midnight where only the date was promised.</param>
/// <param name="To">Latest arrival.</param>
public sealed record PromisedVisit(string Site, LocalDate On, LocalTime From, LocalTime To);

/// <summary>How long it takes from place to place.</summary>
/// <param name="RoadFactor">Road over great circle.</param>
/// <param name="SpeedKmh">Mean speed.</param>
/// <param name="Minutes">One's own minutes, from name to name; they go before what distance says.</param>
public sealed record TravelTimes(double RoadFactor, double SpeedKmh, IReadOnlyDictionary<(string From, string To), double> Minutes)
{
    /// <summary>Road over great circle; a rule of thumb.</summary>
    public const double UsualRoadFactor = 1.3;

    /// <summary>Mean speed with town and country, km/h; a rule of thumb.</summary>
    public const double UsualSpeedKmh = 45;

    /// <summary>Kilometers by road, estimated.</summary>
    public double Km(NamedPlace from, NamedPlace to) =>
        RoadFactor * (from.Place == to.Place ? 0 : from.Place.KmTo(to.Place));

    /// <summary>Seconds, rounded up to the whole minute.</summary>
    public long Seconds(NamedPlace from, NamedPlace to) => 60 * (long)Math.Ceiling(
        (Minutes.TryGetValue((from.Name, to.Name), out double own) ? own : 60 * Km(from, to) / SpeedKmh) - 1e-9);
}

/// <summary>Day routes that are asked for.</summary>
public sealed record RoundsRequest
{
    /// <summary>What is due.</summary>
    public required ListOf<DueItem> Due { get; init; }

    /// <summary>The sites that it is due at.</summary>
    public required ListOf<NamedPlace> Sites { get; init; }

    /// <summary>The days to work on, rising.</summary>
    public required ListOf<LocalDate> Days { get; init; }

    /// <summary>How many people.</summary>
    public required int People { get; init; }

    /// <summary>When they leave at the earliest.</summary>
    public required LocalTime Leaves { get; init; }

    /// <summary>When they are back at the latest.</summary>
    public required LocalTime Back { get; init; }

    /// <summary>Where they start.</summary>
    public required NamedPlace Start { get; init; }

    /// <summary>Where they end.</summary>
    public required NamedPlace End { get; init; }

    /// <summary>Dates that were promised.</summary>
    public ListOf<PromisedVisit> Promised { get; init; } = [];

    /// <summary>Minutes at each stop besides the work: to park, open up and write down.</summary>
    public int MinutesPerStop { get; init; } = 5;

    /// <summary>How long roads take.</summary>
    public required TravelTimes Travel { get; init; }
}
