using NodaTime;
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
            if (name.Length > 0 && supplies.Any(s => s.Name == name)) map.Findings.Refuse(map.Get("name")!, "a name of its own", "Two supplies have this name");
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
        return map.Fill(new WaterSupply(name, flow, pressure, permitted));
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
            if (hours.Any(other => Overlap(window, other))) map.Findings.Refuse(item, "hours apart from each other", "These hours overlap others of the list");
            hours.Add(window);
        }

        ListOf<TimeWindow> windows = not ? Complement(hours) : hours.ToListOf();
        return new PermittedTimes(windows, Weekdays(map), map.ValueOr("dates", DateParity.Any), map.ValueOr("drip exempt", false));
    }

    private static ListOf<IsoDayOfWeek> Weekdays(MapReader map)
    {
        if (!map.Has("days")) return PermittedTimes.EveryWeekday;
        List<IsoDayOfWeek> days = [];
        foreach ((SurveyNode item, IsoDayOfWeek day) in map.Values<IsoDayOfWeek>("days"))
        {
            if (days.Contains(day)) map.Findings.Refuse(item, "each day once", "This day stands here twice");
            else days.Add(day);
        }

        return days.Order().ToListOf();
    }

    /// <summary>What is left of the day; the windows do not overlap.</summary>
    private static ListOf<TimeWindow> Complement(List<TimeWindow> forbidden)
    {
        List<TimeWindow> sorted = [.. forbidden.OrderBy(window => window.From)];
        return Enumerable.Range(0, sorted.Count)
            .Select(i => new TimeWindow(sorted[i].To, sorted[(i + 1) % sorted.Count].From))
            .Where(window => window.From != window.To)
            .ToListOf();
    }

    private static bool Overlap(TimeWindow one, TimeWindow other) => Holds(one, other.From) || Holds(other, one.From);

    private static bool Holds(TimeWindow window, LocalTime time) =>
        window.PassesMidnight ? time >= window.From || time < window.To : time >= window.From && (time < window.To || window.To == LocalTime.Midnight);
}
