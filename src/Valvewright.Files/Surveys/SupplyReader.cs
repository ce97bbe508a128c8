using NodaTime;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads the supplies and when they may be used.</summary>
internal static class SupplyReader
{
    internal static ListOf<WaterSupply> ReadAll(MapReader site)
    {
        List<WaterSupply> supplies = [];
        foreach (MapReader map in site.Maps("supplies"))
        {
            string name = map.Text("name") ?? "";
            if (name.Length > 0 && supplies.Any(s => s.Name == name)) map.Findings
                .Refuse(map.Get("name")!, "a name of its own", "Two supplies have this name");
            supplies.Add(Read(map.At($"supplies/{name}"), name));
        }

        return supplies.ToListOf();
    }

    private static WaterSupply Read(MapReader map, string name)
    {
        double flow = map.Amount("flow");
        double pressure = map.Amount("pressure");
        PermittedTimes permitted = map.Inner("permitted") is { } times ? Permitted(times) : PermittedTimes.Always;
        map.Assume("permitted");
        return map.Fill(new WaterSupply(name, flow, pressure, permitted) { On = OnDates(map), Tank = Tank(map), Pump = Pump(map) });
    }

    /// <summary>The tank of a supply; site files and files of measurements write it alike.</summary>
    internal static WaterTank? Tank(MapReader supply)
    {
        if (supply.Inner("tank") is not { } tank) return null;
        (double volume, double refill, double least) = (tank.Amount("volume"), tank.Amount("refill"), tank.ValueOr("least", 0.0));
        if (least >= volume)
        {
            tank.Findings.Refuse(tank.Get("least") ?? tank.Map, "less than the tank holds", "More must stay in than the tank holds");
        }

        return double.IsNaN(volume + refill) ? null : new WaterTank(volume, refill, least);
    }

    /// <summary>What the pump of a supply allows, likewise.</summary>
    internal static PumpLimit? Pump(MapReader supply) =>
        supply.Inner("pump") is { } pump && pump.TryValue("starts per hour", out int starts)
            ? new PumpLimit(starts, Duration.FromSeconds(pump.ValueOr("runs on", 0.0))) : null;

    private static PeriodOfYear? OnDates(MapReader map)
    {
        bool isGiven = map.Has("on from") || map.Has("on to");
        return map.TryValue("on from", out AnnualDate from, isGiven) & map.TryValue("on to", out AnnualDate to, isGiven)
            ? new PeriodOfYear(from, to) : null;
    }

    private static PermittedTimes Permitted(MapReader map)
    {
        List<TimeWindow> hours = [];
        bool not = map.Has("not hours");
        if (not && map.Has("hours"))
        {
            map.Findings.Refuse(map.Get("not hours")!, "either 'hours' or 'not hours'", "Permitted hours are given twice");
            not = false;
        }

        foreach ((SurveyNode item, TimeWindow window) in map.Values<TimeWindow>(not ? "not hours" : "hours"))
        {
            if (hours.Any(other => Overlap(window, other))) map.Findings
                .Refuse(item, "hours apart from each other", "These hours overlap others of the list");
            hours.Add(window);
        }

        ListOf<TimeWindow> windows = not ? Complement(hours) : hours.ToListOf();
        PermittedTimes permitted = new(windows, Weekdays(map), map.ValueOr("dates", DateParity.Any), map.ValueOr("drip exempt", false));
        if (permitted.IsInDoubt)
        {
            map.Findings.Assume(
                $"{map.Path}/hours",
                "hours over midnight belong to the date on which they begin",
                "the rule may also mean the morning and the evening of each permitted date; ask who made it. Plans keep both where they can");
        }

        return permitted;
    }

    private static ListOf<IsoDayOfWeek> Weekdays(MapReader map)
    {
        if (!map.Has("days")) return PermittedTimes.EveryWeekday;
        List<IsoDayOfWeek> days = [];
        foreach ((SurveyNode item, IsoDayOfWeek day) in map.Values<IsoDayOfWeek>("days"))
        {
            if (days.Contains(day)) map.Findings.Refuse(item, "each day once", "This day is here twice");
            else days.Add(day);
        }

        return days.Order().ToListOf();
    }

    /// <summary>What is left of a calendar date, midnight to midnight; the windows do not overlap.</summary>
    private static ListOf<TimeWindow> Complement(List<TimeWindow> forbidden)
    {
        List<TimeWindow> holes = [
            .. new PermittedTimes(forbidden.ToListOf(), PermittedTimes.EveryWeekday).ByCalendarDate().Hours.OrderBy(window => window.From)];
        List<TimeWindow> left = [];
        LocalTime from = LocalTime.Midnight;
        bool dayEnds = false;
        foreach (TimeWindow hole in holes)
        {
            if (hole.From > from) left.Add(new TimeWindow(from, hole.From));
            from = hole.To;
            dayEnds = hole.To == LocalTime.Midnight;
        }

        if (!dayEnds) left.Add(new TimeWindow(from, LocalTime.Midnight));
        return left.ToListOf();
    }

    private static bool Overlap(TimeWindow one, TimeWindow other) => Holds(one, other.From) || Holds(other, one.From);

    private static bool Holds(TimeWindow window, LocalTime time) =>
        window.PassesMidnight ? time >= window.From || time < window.To : time >= window.From
            && (time < window.To || window.To == LocalTime.Midnight);
}
