using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads profiles, by name or spelled out.</summary>
internal static class ProfileReader
{
    /// <summary>The profiles that a site spells out for all its controllers, by name.</summary>
    internal static Dictionary<string, Profile> ReadNamed(MapReader site)
    {
        Dictionary<string, Profile> profiles = new(StringComparer.Ordinal);
        foreach (MapReader map in site.Maps("profiles"))
        {
            map.Find("name", needed: true);
            string name = map.Text("name") ?? "";
            Profile profile = Spelled(map, name);
            if (name.Length > 0 && !profiles.TryAdd(name, profile)) map.Findings
                .Refuse(map.Get("name")!, "a name of its own", "Two profiles have this name");
        }

        return profiles;
    }

    /// <summary>The profile of a controller, null with the reason among the findings.</summary>
    internal static Profile? Of(MapReader controller, Dictionary<string, Profile> named)
    {
        if (controller.Find("profile") is not { } value) return null;
        if (value is MapNode) return controller.Inner("profile") is { } map ? Spelled(map, map.Text("name") ?? "") : null;
        if (controller.AsText(value, "the name of a profile, or its keys") is not { } text) return null;
        if (named.TryGetValue(text.Text, out Profile? own)) return own;
        if (GenericProfiles.Named(text.Text) is { } generic) return generic;
        string[] names = [.. named.Keys, .. GenericProfiles.All.Select(profile => profile.Name)];
        controller.Findings.Refuse(
            text, WordList<string>.OneOf(names.Select(name => $"'{name}'")), "Unknown profile", NearestWord.To(text.Text, names));
        return null;
    }

    private static Profile Spelled(MapReader map, string name)
    {
        map = map.At($"profiles/{name}");
        int stations = map.ValueOr("stations", 1);
        int programs = map.ValueOr("programs", 1);
        int starts = map.ValueOr("start times", 1);
        ListOf<DayRuleKind> rules = map.Values<DayRuleKind>("day rules").Select(item => item.Value).Distinct().Order().ToListOf();
        int interval = map.ValueOr("largest interval", 1);
        if (rules.Contains(DayRuleKind.Interval) && !map.Has("largest interval"))
        {
            map.Findings.Refuse(
                map.Get("day rules")!, "'largest interval' as well", "The profile offers intervals but does not say how long");
        }

        Profile basis = new() { Name = "", Stations = stations, Programs = programs, StartTimesPerProgram = starts, DayRules = rules };
        return map.Fill(basis with
        {
            Name = name.Length > 0 ? name : $"{stations} stations, {programs} programs, {starts} starts",
            LargestIntervalDays = interval,
            StartStepMinutes = Seconds(map, "start step", basis.StartStepMinutes * 60) / 60,
            RunTimeStepSeconds = Seconds(map, "run time step", basis.RunTimeStepSeconds),
            RunTimeLimitSeconds = Seconds(map, "run time limit", basis.RunTimeLimitSeconds),
            PauseBetweenStationsSeconds = Seconds(map, "pause between stations", 0),
            Percent = PercentOf(map),
            Pump = map.Inner("pump") is { } pump ? new PumpOutput((int)pump.ValueOr("lead", 0.0), (int)pump.ValueOr("lag", 0.0)) : null,
            Power = BatteryOf(map.Inner("battery")),
        });
    }

    private static int Seconds(MapReader map, string key, int otherwise)
    {
        if (!map.TryValue(key, out double seconds))
        {
            map.Assume(key);
            return otherwise;
        }

        bool isStart = key == "start step";
        if (seconds % 1 != 0 || (isStart && (seconds % 60 != 0 || 86_400 % seconds != 0)))
        {
            Sentence expected = isStart ? "whole minutes that divide a day" : "whole seconds";
            map.Findings.Refuse(
                map.Get(key)!, expected, $"Not usable as {(Sentence)((QuantityRule)ControllerTable.Profile[key]!.Kind).Name}");
        }

        return (int)seconds;
    }

    private static PercentRange PercentOf(MapReader map)
    {
        PercentRange usual = new(10, 200, 10);
        if (map.Inner("percent") is not { } percent)
        {
            map.Assume("percent");
            return usual;
        }

        PercentRange range =
            new(percent.ValueOr("least", usual.Least), percent.ValueOr("largest", usual.Largest), percent.ValueOr("step", usual.Step));
        if ((100 - range.Least) % range.Step != 0) percent.Findings
            .Refuse(percent.Get("step") ?? percent.Map, "a step that reaches 100 from the least", "100 percent cannot be set");
        return range;
    }

    private static PowerDemand? BatteryOf(MapReader? map) => map is null
        ? null
        : new PowerDemand(
            map.ValueOr("capacity mah", 1), map.ValueOr("standby microamps", 0), map.ValueOr("pulse millicoulombs", 0),
                map.Amount("self discharge per year") / 100);
}
