using System.Globalization;
using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Survey;

/// <summary>The facts of a site, complete: what the survey left out has been filled and is listed in <see cref="Assumptions"/>.</summary>
public sealed record Site
{
    /// <summary>The site's name, as a person says it.</summary>
    public required string Name { get; init; }

    /// <summary>Where it lies.</summary>
    public required Place Place { get; init; }

    /// <summary>The IANA name of the time zone people live by there.</summary>
    public required string TimeZone { get; init; }

    /// <summary>Metric or US customary, for everything a person sees.</summary>
    public UnitSystem Units { get; init; } = UnitSystem.Metric;

    /// <summary>How times of day are shown.</summary>
    public ClockStyle Clock { get; init; } = ClockStyle.Hours24;

    /// <summary>Where water comes from; controllers name one of these.</summary>
    public required ListOf<WaterSupply> Supplies { get; init; }

    /// <summary>The controllers, in the order surveyed.</summary>
    public required ListOf<SiteController> Controllers { get; init; }

    /// <summary>What a millimeter of unmet use weighs against water, mm of water, at normal quality.</summary>
    /// <remarks>A preference, not a constant of nature: "4 mm of water to save 1 mm of plant use".</remarks>
    public double UnmetUseWeight { get; init; } = 4;

    /// <summary>The daily weather record to plan with, if the survey names one.</summary>
    public WeatherSource? Weather { get; init; }

    /// <summary>What was not surveyed and has been assumed.</summary>
    public ListOf<Assumption> Assumptions { get; init; } = [];

    /// <summary>The survey as it was read, where weather or a date has decided since what it leaves open; null where nothing has.</summary>
    [JsonIgnore]
    public Site? Surveyed { get; private init; }

    /// <summary>The site in the air of its weather record: decides plant factors where the survey names no climate.</summary>
    /// <param name="years">Years of weather to plan with.</param>
    public Site In(IReadOnlyList<Climate> years)
    {
        if (years.Count == 0 || !Plantings.Any(p => p.HumidAirFactor is not null || p.Becomes?.HumidAirFactor is not null)) return this;
        AirClimate air = AirClimates.Of(years);
        string index = AirClimates.IndexOf(years).ToString("0.00", CultureInfo.InvariantCulture);
        return WithPlantings(p => p.In(air)) with
        {
            Assumptions = [.. Assumptions, new Assumption(
                "climate", air == AirClimate.Dry ? "dry" : "humid",
                $"rain is {index} of ETo in the six months that use most; humid from 0.65")],
        };
    }

    /// <summary>The site on a date: plants are established from the date that the survey names.</summary>
    public Site AsOf(LocalDate date) => Plantings.All(p => p.AsOf(date) == p) ? this : WithPlantings(p => p.AsOf(date));

    private IEnumerable<Planting> Plantings => Controllers.SelectMany(c => c.Zones).Select(z => z.Planting);

    private Site WithPlantings(Func<Planting, Planting> change) => this with
    {
        Surveyed = Surveyed ?? this,
        Controllers = Controllers.Select(c => c with
        {
            Zones = c.Zones.Select(z => z with { Planting = change(z.Planting) }).ToListOf(),
        }).ToListOf(),
    };

    /// <summary>The supply of that name.</summary>
    /// <exception cref="KeyNotFoundException">No supply has the name.</exception>
    public WaterSupply SupplyNamed(string name) =>
        Supplies.FirstOrDefault(s => s.Name == name) ?? throw new KeyNotFoundException($"No supply is named '{name}'.");

    /// <summary>The controller of that name.</summary>
    /// <exception cref="KeyNotFoundException">No controller has the name.</exception>
    public SiteController ControllerNamed(string name) =>
        Controllers.FirstOrDefault(c => c.Name == name) ?? throw new KeyNotFoundException($"No controller is named '{name}'.");

    /// <summary>The time zone itself.</summary>
    public DateTimeZone Zone() => DateTimeZoneProviders.Tzdb[TimeZone];
}

/// <summary>How times of day are shown.</summary>
public enum ClockStyle
{
    /// <summary>00:00 to 23:59.</summary>
    Hours24,

    /// <summary>12:00 am to 11:59 pm.</summary>
    Hours12,
}

/// <summary>The units of everything a person sees; inside all is SI.</summary>
public enum UnitSystem
{
    /// <summary>mm, m, m2, L/min, kPa, degrees C.</summary>
    Metric,

    /// <summary>US customary: in, ft, sq ft, gpm, psi, degrees F.</summary>
    UsCustomary,
}

/// <summary>Where a record of daily weather is: a file in a named layout, or a service that is asked for it.</summary>
/// <param name="File">Path of the file, resolved against the survey's folder; null when it is fetched.</param>
/// <param name="Layout">The layout's word, null when it is to be recognised.</param>
/// <param name="Source">Who publishes it and under which licence, for the reader of the result.</param>
public sealed record WeatherSource(string? File, string? Layout, string? Source)
{
    /// <summary>The service that is asked for the weather of the site, where no file is named.</summary>
    public string? Service { get; init; }

    /// <summary>Where the station stands, as the survey gives it; null: as the file gives it, else the site itself.</summary>
    public Place? Station { get; init; }

    /// <summary>Height of the wind measurement, m; NaN: as the file gives it.</summary>
    public double WindHeightM { get; init; } = double.NaN;

    /// <summary>Which column of the file is what, where no layout tells; empty where one does.</summary>
    public ListOf<ColumnEntry> Columns { get; init; } = [];

    /// <summary>Choices for reference ET.</summary>
    public EtoOptions Eto { get; init; } = EtoOptions.Default;

    /// <summary>
    /// Whether the record is one from the other hemisphere moved by half a year, so that its summers fall in the site's
    /// summer. A device for demonstrations and for places without a record; it is said wherever the record is named.
    /// </summary>
    public bool MovedHalfAYear { get; init; }
}

/// <summary>A column of a weather file as the survey names it.</summary>
/// <param name="Word">What it holds: <c>tmax</c>, <c>rain</c>.</param>
/// <param name="Column">Its header in the file, with its unit in brackets.</param>
public sealed record ColumnEntry(string Word, string Column);

/// <summary>One value that the survey did not give.</summary>
/// <param name="Path">What it is about, in the survey's own words: <c>controllers/North/zones/Lawn/soil</c>.</param>
/// <param name="Value">The value taken, with its unit.</param>
/// <param name="Why">The rule or source it comes from.</param>
public sealed record Assumption(string Path, Sentence Value, Sentence Why);
