using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof.ByHand;

/// <summary>What settings changed by hand would do: rules, flow and the year's water, soon enough to follow each touch.</summary>
/// <param name="Plan">The plan asked about.</param>
/// <param name="Breaches">Rules that it breaks on a year of calendar; the proof looks at four.</param>
/// <param name="Supplies">How each supply is used.</param>
/// <param name="Zones">The year's water, mean of the years of record; seedbeds are left out.</param>
public sealed record WhatIf(Plan Plan, ListOf<Breach> Breaches, ListOf<SupplyProof> Supplies, ListOf<WhatIfZone> Zones)
{
    /// <summary>Water of a mean year, m3.</summary>
    public double WaterM3 => Zones.Sum(z => z.AppliedMm * z.AreaM2) / 1000;

    /// <summary>The part of their use that low quarters have met, mean by area.</summary>
    public double UseMet => Zones.Sum(z => z.DemandMm * z.AreaM2) is > 0 and var demand
        ? 1 - (Zones.Sum(z => z.UnmetMm * z.AreaM2) / demand) : 1;
}

/// <summary>A zone's year.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Station">The station.</param>
/// <param name="Zone">Its name.</param>
/// <param name="AreaM2">Its area.</param>
/// <param name="AppliedMm">Water applied, gross.</param>
/// <param name="DemandMm">What its plants would use.</param>
/// <param name="UnmetMm">What of it the low quarter lacks.</param>
/// <param name="LeastUseMet">The part that its quality asks for.</param>
public sealed record WhatIfZone(string Controller, int Station, string Zone, double AreaM2, double AppliedMm, double DemandMm,
    double UnmetMm, double LeastUseMet)
{
    /// <summary>The part of its use that the low quarter has met.</summary>
    public double UseMet => DemandMm > 0 ? 1 - (UnmetMm / DemandMm) : 1;

    /// <summary>Whether that is what its quality asks for.</summary>
    public bool IsServed => UseMet >= LeastUseMet;
}
