using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plants;

/// <summary>What a stage does to the numbers of an established planting.</summary>
/// <remarks>All common practice: published bulletins describe these stages in words ("light and frequent", "keep the root ball
/// moist").</remarks>
public static class StageRules
{
    /// <summary>Depth of a seedbed that is kept moist, m.</summary>
    public const double SeedbedM = 0.03;

    /// <summary>Share of a seedbed's water that may be used between waterings.</summary>
    public const double SeedbedDepletion = 0.5;

    /// <summary>Coefficient of a seedbed: wet bare soil evaporates about ETo (FAO-56 figure 29, not checked against the printed
    /// source).</summary>
    public const double SeedbedCoefficient = 1.0;

    /// <summary>Deepest root zone of a planting that is still establishing: the root ball and a little beyond, m.</summary>
    public const double EstablishingDepthM = 0.30;

    /// <summary>Share that an establishing planting may use.</summary>
    public const double EstablishingDepletion = 0.30;

    /// <summary>Least coefficient while establishing, whatever the species will bear later.</summary>
    public const double EstablishingCoefficient = 0.5;

    /// <summary>Share that a dormant planting may use: it is only kept from dying.</summary>
    public const double DormantDepletion = 0.75;

    /// <summary>What a dormant planting uses of its usual coefficient.</summary>
    public const double DormantShare = 0.3;

    /// <summary>The planting at its stage.</summary>
    /// <param name="established">Its numbers once established.</param>
    /// <param name="stage">The stage it is at.</param>
    public static Planting At(Planting established, PlantStage stage)
    {
        ArgumentNullException.ThrowIfNull(established);
        return stage switch
        {
            PlantStage.NewlySeeded => established with
            {
                Stage = stage,
                RootDepthM = Math.Min(SeedbedM, established.RootDepthM),
                AllowedDepletion = SeedbedDepletion,
                CoefficientByMonth = LandscapeCoefficient.AllYear(SeedbedCoefficient),
                HumidAirFactor = null,
                Becomes = established with { Stage = PlantStage.Established, Since = null },
            },
            PlantStage.Establishing => established with
            {
                Stage = stage,
                RootDepthM = Math.Min(EstablishingDepthM, established.RootDepthM / 2),
                AllowedDepletion = Math.Min(EstablishingDepletion, established.AllowedDepletion),
                CoefficientByMonth = established.CoefficientByMonth.Select(kl => Math.Max(kl, EstablishingCoefficient)).ToListOf(),
                Becomes = established with { Stage = PlantStage.Established, Since = null },
            },
            PlantStage.Dormant => established with
            {
                Stage = stage,
                AllowedDepletion = Math.Max(DormantDepletion, established.AllowedDepletion),
                CoefficientByMonth = established.CoefficientByMonth.Select(kl => kl * DormantShare).ToListOf(),
            },
            _ => established with { Stage = stage },
        };
    }
}
