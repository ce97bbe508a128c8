using System.Text.Json.Serialization;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Plans;

/// <summary>What a saved plan is made of, known beforehand: the page, where unused code is cut away, would not find it by
/// reflection.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(SavedPlan))]
[JsonSerializable(typeof(IsoDayOfWeek[]))]
[JsonSerializable(typeof(LocalTime[]))]
[JsonSerializable(typeof(Program[]))]
[JsonSerializable(typeof(RunTime[]))]
[JsonSerializable(typeof(ControllerPlan[]))]
[JsonSerializable(typeof(Visit[]))]
internal sealed partial class PlanJson : JsonSerializerContext;
