using Valvewright.Engine.Controllers;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Supply;

namespace Valvewright.Planning.Choices;

/// <summary>What a supply's tank and pump allow, as far as dates and run times can be judged without start times.</summary>
/// <remarks>
/// The tank falls by what is drawn less what flows in while it is drawn. Draws of neighboring dates add up, less what flows in between. A
/// spell of flow that is never shorter than an hour shared by the pump's starts keeps to them, whichever programs run.
/// </remarks>
/// <param name="supply">The supply.</param>
/// <param name="share">The part of the tank's room that is counted on, and of the pump's starts; 0: neither is looked at.</param>
internal sealed class StoredWater(WaterSupply supply, double share)
{
    /// <summary>Neighboring dates looked at together.</summary>
    public const int MostDates = 7;

    private const double MinutesPerDay = 1440;
    private const double TenthsSecondsPerLiter = 600;

    private WaterTank? Tank => share > 0 ? supply.Tank : null;

    private PumpLimit? Pump => share > 0 && supply.Pump is { StartsPerHour: > 0 } pump ? pump : null;

    /// <summary>The most that may be drawn on so many neighboring dates, seconds x tenths of L/min; null where nothing limits it.</summary>
    public long? LargestDraw(int dates)
    {
        if (Tank is not { } tank || tank.RefillLpm >= supply.FlowLpm) return null;
        double room = share * (tank.VolumeL - tank.LeastL);
        double liters = (room / (1 - (tank.RefillLpm / supply.FlowLpm))) + (tank.RefillLpm * MinutesPerDay * (dates - 1));
        return (long)(TenthsSecondsPerLiter * liters);
    }

    /// <summary>The shortest that one station may run, so that the pump does not start too often; 0 where nothing asks for it.</summary>
    public int LeastRunSeconds(Profile profile) => StopsBetweenStations(profile)
        ? Math.Max(0, LeastSpellSeconds - profile.PauseBetweenStationsSeconds) : 0;

    /// <summary>The shortest that a start of a program may run with all its stations.</summary>
    public int LeastProgramSeconds(Profile profile) => StopsBetweenStations(profile) ? 0 : LeastSpellSeconds;

    private int LeastSpellSeconds => Pump is { } pump ? (int)Math.Ceiling(3600 / (share * pump.StartsPerHour)) : 0;

    private bool StopsBetweenStations(Profile profile) =>
        Pump is { } pump && profile.PauseBetweenStationsSeconds > pump.RunsOn.TotalSeconds;
}
