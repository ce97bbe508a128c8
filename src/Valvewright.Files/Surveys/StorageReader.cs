using NodaTime;
using Valvewright.Engine.Storage;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads the tank and the pump of a supply; site files and files of measurements write them alike.</summary>
internal static class StorageReader
{
    internal static WaterTank? Tank(MapReader supply)
    {
        if (supply.Inner("tank") is not { } tank) return null;
        (double volume, double refill, double least) = (tank.Amount("volume"), tank.Amount("refill"), tank.ValueOr("least", 0.0));
        if (least >= volume) tank.Findings.Refuse(tank.Get("least")!, "less than the tank holds", "More must stay in than the tank holds");
        return double.IsNaN(volume + refill) ? null : new WaterTank(volume, refill, least);
    }

    internal static PumpLimit? Pump(MapReader supply) =>
        supply.Inner("pump") is { } pump && pump.TryValue("starts per hour", out int starts) ? new PumpLimit(starts, Duration.FromSeconds(pump.ValueOr("runs on", 0.0))) : null;
}
