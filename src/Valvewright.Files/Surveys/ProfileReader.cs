using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads profiles, by name or spelled out.</summary>
internal static class ProfileReader
{
    /// <summary>The profiles that a site spells out for all its controllers, by name.</summary>
    internal static Dictionary<string, Profile> ReadNamed(MapReader site)
    {
        Dictionary<string, Profile> profiles = new(StringComparer.Ordinal);
        foreach (SurveyNode item in site.Items("profiles"))
        {
            if (site.AsMap(item, KeySet.Profile, "profiles") is not { } map) continue;
            string name = map.Text("name", needed: true) ?? "";
            Profile profile = Spelled(map, name);
            if (name.Length > 0 && !profiles.TryAdd(name, profile)) map.Findings.Refuse(map.Get("name")!, "a name of its own", "Two profiles have this name");
        }

        return profiles;
    }

    /// <summary>The profile of a controller, null with the reason among the findings.</summary>
    internal static Profile? Of(MapReader controller, Dictionary<string, Profile> named)
    {
        const string Expected = "the name of a profile, or its keys";
        SurveyNode? value = controller.Need("profile", Expected);
        if (value is MapNode)
        {
            MapReader? map = controller.AsMap(value, KeySet.Profile, $"{controller.Path}/profile");
            return map is null ? null : Spelled(map, map.Text("name") ?? "");
        }

        if (value is null || controller.AsText(value, Expected) is not { } text) return null;
        if (named.TryGetValue(text.Text, out Profile? own)) return own;
        if (GenericProfiles.Named(text.Text) is { } generic) return generic;
        string[] names = [.. named.Keys, .. GenericProfiles.All.Select(profile => profile.Name)];
        controller.Findings.Refuse(text, Words.OneOf(names.Select(name => $"'{name}'")), "There is no such profile", NearestWord.To(text.Text, names));
        return null;
    }

    private static Profile Spelled(MapReader map, string name)
    {
        int stations = map.Whole("stations", 1, 48, needed: true) ?? 1;
        int programs = map.Whole("programs", 1, 8, needed: true) ?? 1;
        int starts = map.Whole("start times", 1, 24, needed: true) ?? 1;
        ListOf<DayRuleKind> rules = Rules(map, "day rules", needed: true);
        int interval = map.Whole("largest interval", 1, 400) ?? 1;
        if (rules.Contains(DayRuleKind.Interval) && !map.Has("largest interval"))
        {
            map.Findings.Refuse(map.Get("day rules")!, "'largest interval' as well", "The profile offers intervals but does not say how long");
        }

        Profile basis = new() { Name = "", Stations = stations, Programs = programs, StartTimesPerProgram = starts, DayRules = rules };
        string path = $"profiles/{name}";
        return basis with
        {
            Name = name.Length > 0 ? name : $"{stations} stations, {programs} programs, {starts} starts",
            LargestIntervalDays = interval,
            StartStepMinutes = (int)(Seconds(map, path, "start step", QuantityRule.StartStep, basis.StartStepMinutes * 60) / 60),
            RunTimeStepSeconds = (int)Seconds(map, path, "run time step", QuantityRule.RunTimeStep, basis.RunTimeStepSeconds),
            RunTimeLimitSeconds = (int)Seconds(map, path, "run time limit", QuantityRule.RunTimeLimit, basis.RunTimeLimitSeconds),
            PauseBetweenStationsSeconds = (int)Seconds(map, path, "pause between stations", QuantityRule.Pause, 0),
            Percent = PercentOf(map, path),
            Rounding = map.Word("rounding", Words.Roundings) ?? Assumed(map, path, "rounding", "nearest second", basis.Rounding),
            Overlap = map.Word("overlap", Words.Overlaps) ?? Assumed(map, path, "overlap", "waits its turn", basis.Overlap),
            OddSkips31 = map.YesNo("odd skips the 31st") ?? false,
            OddSkips29February = map.YesNo("odd skips 29 february") ?? false,
            ClockKnowsDaylightSaving = map.YesNo("knows daylight saving") ?? false,
            LargestRainHoldDays = map.Whole("largest rain hold", 0, 60) ?? 0,
            HasSensorInput = map.YesNo("sensor input") ?? false,
            Pump = PumpOf(map.Inner("pump", KeySet.Pump)),
            KeepsSettingsWithoutPower = map.YesNo("keeps settings") ?? true,
            Power = BatteryOf(map.Inner("battery", KeySet.Battery)),
        };
    }

    /// <summary>Kinds of day rule named by a key.</summary>
    internal static ListOf<DayRuleKind> Rules(MapReader map, string key, bool needed = false)
    {
        if (needed) map.Need(key, Words.OneOf(Words.DayRules.Keys));
        return map.Items(key).Select(item => map.AsWord(item, Words.DayRules, key)).OfType<DayRuleKind>().Distinct().Order().ToListOf();
    }

    private static double Seconds(MapReader map, string path, string key, QuantityRule rule, double otherwise)
    {
        double seconds = map.Quantity(key, rule);
        if (!double.IsNaN(seconds))
        {
            if (seconds % 1 != 0 || (rule == QuantityRule.StartStep && (seconds % 60 != 0 || 86_400 % seconds != 0)))
            {
                map.Findings.Refuse(map.Get(key)!, rule == QuantityRule.StartStep ? "whole minutes that divide a day" : "whole seconds", $"This is no use as {rule.Name}");
            }

            return seconds;
        }

        if (!map.Has(key)) map.Findings.Assume($"{path}/{key}", otherwise % 60 == 0 && otherwise > 0 ? $"{otherwise / 60} min" : $"{otherwise} s", "usual; read the manual");
        return otherwise;
    }

    private static PercentRange PercentOf(MapReader map, string path)
    {
        PercentRange usual = new(10, 200, 10);
        MapReader? percent = map.Inner("percent", KeySet.Percent);
        if (percent is null)
        {
            if (!map.Has("percent")) map.Findings.Assume($"{path}/percent", "10 to 200 by 10", "usual; read the manual");
            return usual;
        }

        PercentRange range = new(
            percent.Whole("least", 0, 100, needed: true) ?? usual.Least,
            percent.Whole("largest", 100, 1000, needed: true) ?? usual.Largest,
            percent.Whole("step", 1, 100, needed: true) ?? usual.Step);
        if ((100 - range.Least) % range.Step != 0) percent.Findings.Refuse(percent.Get("step") ?? percent.Map, "a step that reaches 100 from the least", "100 percent cannot be set");
        return range;
    }

    private static PumpOutput? PumpOf(MapReader? map) =>
        map is null ? null : new PumpOutput((int)Or(map.Quantity("lead", QuantityRule.Pause), 0), (int)Or(map.Quantity("lag", QuantityRule.Pause), 0));

    private static PowerDemand? BatteryOf(MapReader? map)
    {
        if (map is null) return null;
        int capacity = map.Whole("capacity mah", 10, 100_000, needed: true) ?? 1;
        int standby = map.Whole("standby microamps", 0, 100_000, needed: true) ?? 0;
        int pulse = map.Whole("pulse millicoulombs", 0, 100_000, needed: true) ?? 0;
        double self = map.Quantity("self discharge per year", QuantityRule.Fraction, needed: true) / 100;
        return new PowerDemand(capacity, standby, pulse, self);
    }

    private static double Or(double value, double otherwise) => double.IsNaN(value) ? otherwise : value;

    private static T Assumed<T>(MapReader map, string path, string key, string word, T value)
    {
        if (!map.Has(key)) map.Findings.Assume($"{path}/{key}", word, "usual; read the manual");
        return value;
    }
}
