using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>In which order a survey is usually written.</summary>
internal static class SheetOrder
{
    private static readonly Dictionary<string, KeySet> Within = new()
    {
        ["location"] = KeySet.Location, ["weather"] = KeySet.Weather, ["supplies"] = KeySet.Supply, ["permitted"] = KeySet.Permitted,
        ["controllers"] = KeySet.Controller, ["plants"] = KeySet.Plants, ["soil"] = KeySet.Soil,
        ["sprinklers"] = KeySet.Sprinklers, ["spacing"] = KeySet.Spacing, ["emitters"] = KeySet.Emitters, ["audit"] = KeySet.Audit, ["rules"] = KeySet.Rules,
        ["profiles"] = KeySet.Profile, ["profile"] = KeySet.Profile, ["percent"] = KeySet.Percent, ["pump"] = KeySet.Pump, ["battery"] = KeySet.Battery, ["station"] = KeySet.Location,
    };

    /// <summary>A zone's name comes after its station, as people write it.</summary>
    private static readonly string[] Zone = ["station", "name", "area", "plants", "slope", "soil", "sprinklers", "rules"];

    /// <summary>Before which entry a new key stands.</summary>
    internal static int PlaceOf(SheetMap map, string[] above, string key)
    {
        string[] order = above.Length == 0 ? KeySet.Site.Keys
            : above.LastOrDefault(step => !step.All(char.IsAsciiDigit)) is not { } last ? KeySet.Site.Keys
            : last == "zones" ? Zone
            : Within.TryGetValue(last, out KeySet? keys) ? keys.Keys : [];
        int rank = Array.IndexOf(order, key);
        int after = map.Entries.FindLastIndex(e => Array.IndexOf(order, e.Key) <= rank);
        return rank < 0 ? map.Entries.Count : after + 1;
    }

    /// <summary>Whether the mapping of a key is usually written on one line.</summary>
    internal static bool IsSmall(string key) => key is "location" or "plants" or "soil" or "station" or "spacing" or "emitters" or "percent" or "pump" or "rules" or "battery";
}
