namespace Valvewright.Files.Surveys.Yaml;

/// <summary>The keys that one kind of mapping may hold; each stands in the schema under the same name.</summary>
/// <param name="Name">Name of the schema's definition.</param>
/// <param name="Keys">The keys, in the order that the documentation lists them.</param>
internal sealed record KeySet(string Name, params string[] Keys)
{
    internal static readonly KeySet Site = new("site", "site", "location", "time zone", "units", "clock", "climate", "weather", "soil", "slope", "profiles", "supplies", "controllers");
    internal static readonly KeySet Location = new("location", "latitude", "longitude", "elevation");
    internal static readonly KeySet Weather = new("weather", "file", "layout", "service", "source", "station", "wind height", "moved half a year");
    internal static readonly KeySet Supply = new("supply", "name", "flow", "pressure", "permitted");
    internal static readonly KeySet Permitted = new("permitted", "hours", "not hours", "days", "dates", "drip exempt");
    internal static readonly KeySet Controller = new("controller", "name", "profile", "supply", "day rules", "zones");
    internal static readonly KeySet Zone = new("zone", "name", "station", "area", "plants", "soil", "slope", "sprinklers", "rules");
    internal static readonly KeySet Plants = new("plants", "name", "kind", "water use", "density", "microclimate", "coefficient", "root depth", "allowed depletion", "stage", "since");
    internal static readonly KeySet Soil = new("soil", "texture", "sand", "clay", "organic matter", "available water", "intake", "surface storage");
    internal static readonly KeySet Sprinklers = new("sprinklers", "kind", "rate", "flow", "spacing", "head flow", "emitters", "audit", "uniformity", "loss");
    internal static readonly KeySet Spacing = new("spacing", "along", "between");
    internal static readonly KeySet Emitters = new("emitters", "flow", "count", "along", "between");
    internal static readonly KeySet Audit = new("audit", "minutes", "opening", "volumes", "depths");
    internal static readonly KeySet Rules = new("rules", "largest depth per cycle", "largest depth per day");

    internal static readonly KeySet Profile = new(
        "profile", "name", "stations", "programs", "start times", "start step", "run time step", "run time limit", "day rules", "largest interval",
        "percent", "rounding", "overlap", "pause between stations", "odd skips the 31st", "odd skips 29 february", "knows daylight saving",
        "largest rain hold", "sensor input", "pump", "keeps settings", "battery");

    internal static readonly KeySet Percent = new("percent", "least", "largest", "step");
    internal static readonly KeySet Pump = new("pump", "lead", "lag");
    internal static readonly KeySet Battery = new("battery", "capacity mah", "standby microamps", "pulse millicoulombs", "self discharge per year");

    /// <summary>All of them.</summary>
    internal static IReadOnlyList<KeySet> All { get; } =
    [
        Site, Location, Weather, Supply, Permitted, Controller, Zone, Plants, Soil, Sprinklers, Spacing, Emitters, Audit, Rules, Profile, Percent, Pump, Battery,
    ];
}
