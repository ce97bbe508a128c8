using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>The words of a site file and what they mean.</summary>
internal static class Words
{
    internal static readonly Dictionary<string, UnitSystem> UnitSystems = new() { ["metric"] = UnitSystem.Metric, ["us"] = UnitSystem.UsCustomary };

    internal static readonly Dictionary<string, ClockStyle> Clocks = new() { ["24 hours"] = ClockStyle.Hours24, ["12 hours"] = ClockStyle.Hours12 };

    internal static readonly Dictionary<string, AirClimate> Climates = new() { ["dry"] = AirClimate.Dry, ["humid"] = AirClimate.Humid };

    internal static readonly Dictionary<string, DateParity> Dates = new() { ["any"] = DateParity.Any, ["odd"] = DateParity.Odd, ["even"] = DateParity.Even };

    internal static readonly Dictionary<string, PlantStage> Stages = new()
    {
        ["established"] = PlantStage.Established,
        ["establishing"] = PlantStage.Establishing,
        ["newly seeded"] = PlantStage.NewlySeeded,
        ["dormant"] = PlantStage.Dormant,
    };

    internal static readonly Dictionary<string, WaterUse> WaterUses = new()
    {
        ["very low"] = WaterUse.VeryLow,
        ["low"] = WaterUse.Low,
        ["moderate"] = WaterUse.Moderate,
        ["high"] = WaterUse.High,
    };

    internal static readonly Dictionary<string, Density> Densities = new() { ["sparse"] = Density.Sparse, ["average"] = Density.Average, ["dense"] = Density.Dense };

    internal static readonly Dictionary<string, Microclimate> Microclimates = new()
    {
        ["sheltered"] = Microclimate.Sheltered,
        ["average"] = Microclimate.Average,
        ["exposed"] = Microclimate.Exposed,
    };

    internal static readonly Dictionary<string, EmissionKind> Emissions = new()
    {
        ["spray"] = EmissionKind.Spray,
        ["rotor"] = EmissionKind.Rotor,
        ["drip"] = EmissionKind.Drip,
        ["bubbler"] = EmissionKind.Bubbler,
    };

    internal static readonly Dictionary<string, DayRuleKind> DayRules = new()
    {
        ["days of the week"] = DayRuleKind.DaysOfWeek,
        ["odd"] = DayRuleKind.Odd,
        ["even"] = DayRuleKind.Even,
        ["interval"] = DayRuleKind.Interval,
    };

    internal static readonly Dictionary<string, OverlapBehaviour> Overlaps = new()
    {
        ["waits its turn"] = OverlapBehaviour.WaitsItsTurn,
        ["is lost"] = OverlapBehaviour.Lost,
        ["runs beside"] = OverlapBehaviour.RunsBeside,
    };

    internal static readonly Dictionary<string, PercentRounding> Roundings = new()
    {
        ["nearest second"] = PercentRounding.NearestSecond,
        ["nearest minute"] = PercentRounding.NearestMinute,
        ["down to a minute"] = PercentRounding.DownToMinute,
        ["up to a minute"] = PercentRounding.UpToMinute,
    };

    internal static readonly Dictionary<string, IsoDayOfWeek> Weekdays = Enum.GetValues<IsoDayOfWeek>()
        .Where(day => day != IsoDayOfWeek.None)
        .SelectMany(day => new[] { (Word: day.ToString().ToLowerInvariant(), day), (Word: day.ToString()[..3].ToLowerInvariant(), day) })
        .ToDictionary(pair => pair.Word, pair => pair.day);

    internal static Sentence OneOf(IEnumerable<string> words) => $"one of: {string.Join(", ", words)}";

    /// <summary>The word for a value.</summary>
    internal static string For<T>(IReadOnlyDictionary<string, T> words, T value) => words.First(pair => EqualityComparer<T>.Default.Equals(pair.Value, value)).Key;
}
