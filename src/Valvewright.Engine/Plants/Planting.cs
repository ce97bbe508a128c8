using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plants;

/// <summary>What grows in a zone, as numbers.</summary>
/// <param name="Name">The planting in the survey's words.</param>
/// <param name="Stage">How far along it is; decides how small and how frequent waterings must be.</param>
/// <param name="CoefficientByMonth">Landscape coefficient KL for January to December: plant ET = KL x ETo. 12 values, 0 to 2.</param>
/// <param name="RootDepthM">Depth of the root zone that is watered (for a seedbed: of the seedbed).</param>
/// <param name="AllowedDepletion">The share of available water that may be used before the next watering, 0 to 1 (MAD).</param>
/// <param name="Since">When it was sown or planted, for stages that pass; null when unknown or established.</param>
public sealed record Planting(
    string Name,
    PlantStage Stage,
    ListOf<double> CoefficientByMonth,
    double RootDepthM,
    double AllowedDepletion,
    LocalDate? Since = null)
{
    /// <summary>Turf by season of growth: warm-season turf goes dormant with the cold; null for other plants.</summary>
    public TurfSeason? Turf { get; init; }

    /// <summary>Salinity of the soil that it bears, dS/m of the saturation extract (ECe), where the survey gives one.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? OwnSoilSalinityDsPerM { get; init; }

    /// <summary>The same; usual for the kind where the survey gives none. It counts where the water is salty.</summary>
    /// <remarks>
    /// Warm-season turf: Bermuda grass. Cool-season turf: tall fescue (both FAO 29 table 4, not checked against the printed table);
    /// Kentucky bluegrass bears less. Others: sensitive shrubs, rule of thumb.
    /// </remarks>
    [JsonIgnore]
    public double SoilSalinityDsPerM => OwnSoilSalinityDsPerM ?? Turf switch { TurfSeason.Warm => 6.9, TurfSeason.Cool => 3.9, _ => 2 };

    /// <summary>What humid air makes of KL, as a factor; null where the survey names the climate, or where it makes no
    /// difference.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? HumidAirFactor { get; init; }

    /// <summary>Dates on which it is dormant, where they are given rather than found from temperature.</summary>
    public PeriodOfYear? DormantDates { get; init; }

    /// <summary>Dates on which a cool-season grass grows in its place; null where it is not overseeded.</summary>
    public PeriodOfYear? OverseededDates { get; init; }

    /// <summary>Ground under the crowns of its trees, m2; null where it was not measured. KL stands for the zone's area and has it in
    /// already.</summary>
    public double? CanopyM2 { get; init; }

    /// <summary>The date by which an establishing planting has its roots out and is planned as an established one; null where the survey
    /// names none.</summary>
    public LocalDate? EstablishedBy { get; init; }

    /// <summary>For a stage that passes, the established planting that it grows into; null for all others.</summary>
    public Planting? Becomes { get; init; }

    /// <summary>The same planting where the weather record has decided about the air.</summary>
    public Planting In(AirClimate air) => HumidAirFactor is null && Becomes is null ? this : this with
    {
        CoefficientByMonth = HumidAirFactor is { } factor && air == AirClimate.Humid
            ? CoefficientByMonth.Select(kl => kl * factor).ToListOf() : CoefficientByMonth,
        HumidAirFactor = null,
        Becomes = Becomes?.In(air),
    };

    /// <summary>What it is on a date: established, once the survey says so.</summary>
    public Planting AsOf(LocalDate date) => Stage == PlantStage.Establishing && EstablishedBy <= date ? Becomes ?? this : this;

    /// <summary>KL in the given month, 1 to 12.</summary>
    public double CoefficientIn(int month) => CoefficientByMonth[month - 1];
}

/// <summary>How far along a planting is.</summary>
public enum PlantStage
{
    /// <summary>Roots fill their root zone.</summary>
    Established,

    /// <summary>Planted, roots still confined: shallower root zone, less depletion allowed.</summary>
    Establishing,

    /// <summary>A seedbed of a few centimetres that must be wetted several times a day.</summary>
    NewlySeeded,

    /// <summary>Not growing; only kept from dying.</summary>
    Dormant,
}

/// <summary>How good a planting must look, in people's words; docs/balance.md says what each weighs.</summary>
public enum PlantQuality
{
    /// <summary>Show turf and flower beds: no dry week.</summary>
    High,

    /// <summary>Sound and green.</summary>
    Normal,

    /// <summary>Some browning in a dry spell.</summary>
    Acceptable,

    /// <summary>Alive, nothing more.</summary>
    Survival,
}
