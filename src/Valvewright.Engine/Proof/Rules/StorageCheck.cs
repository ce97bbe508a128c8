using NodaTime;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Supply;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>What a supply's tank holds and its pump allows.</summary>
internal static class StorageCheck
{
    public static void Run(DateTimeZone zone, WaterSupply supply, IReadOnlyList<Opening> openings, BreachList breaches)
    {
        if (supply.Tank is null && supply.Pump is null) return;
        FlowSpell[] spells = [.. openings.Where(o => o.Zone is not null).GroupBy(o => (o.Controller.Name, o.Run.Station))
            .SelectMany(OfValve)];
        if (supply.Tank is { } tank && TankLevel.Of(tank, spells) is { ShortFrom: { } shortFrom } level)
        {
            breaches.Add(BreachKind.TankRunsShort, supply.Name, "the tank runs short", At(shortFrom),
                new BreachFigure(BreachMeasure.VolumeL, level.WorstShortL, 0), level.Shortages);
        }

        if (supply.Pump is { } pump && PumpStarts.Of(spells, pump.RunsOn) is { BusiestHour: { } busiest } starts
            && starts.MostPerHour > pump.StartsPerHour)
        {
            breaches.Add(BreachKind.PumpStartsTooOften, supply.Name, "the pump starts too often within an hour", At(busiest),
                new BreachFigure(BreachMeasure.StartsPerHour, starts.MostPerHour, pump.StartsPerHour));
        }

        LocalDateTime At(Instant moment) => moment.InZone(zone).LocalDateTime;
    }

    /// <summary>One valve is one valve, whichever programs hold it open.</summary>
    private static IEnumerable<FlowSpell> OfValve(IEnumerable<Opening> openings)
    {
        FlowSpell? last = null;
        foreach (Opening opening in openings.OrderBy(o => o.OpensUnix))
        {
            FlowSpell spell = new(Instant.FromUnixTimeSeconds(opening.OpensUnix), Instant.FromUnixTimeSeconds(opening.ClosesUnix),
                opening.Zone!.Emission.FlowLpm);
            if (last is { } before && spell.From <= before.To)
            {
                last = before with { To = Instant.Max(before.To, spell.To) };
                continue;
            }

            if (last is { } whole) yield return whole;
            last = spell;
        }

        if (last is { } end) yield return end;
    }
}
