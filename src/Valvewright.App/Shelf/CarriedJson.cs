using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using NodaTime;
using Valvewright.App.Ready;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;

namespace Valvewright.App.Shelf;

/// <summary>How the page reads and writes JSON: as the engine does, knowing beforehand what a carried site is made of.</summary>
/// <remarks>
/// Finding that out by reflection takes a phone several seconds, once each time the page is opened. Items of lists are named below, because
/// the list's converter hides them; a test holds the names complete. Whatever is not named is still found by reflection.
/// </remarks>
public static class PageJson
{
    /// <summary>For reading.</summary>
    public static JsonSerializerOptions Options { get; } = Make(Json.Options);

    /// <summary>For writing, on one line.</summary>
    public static JsonSerializerOptions Compact { get; } = Make(Json.Compact);

    /// <summary>Reads a value; null only where the text is the word <c>null</c>.</summary>
    public static T? Read<T>(string text) => JsonSerializer.Deserialize<T>(text, Options);

    /// <summary>Reads a value from text as bytes.</summary>
    public static T? Read<T>(ReadOnlySpan<byte> text) => JsonSerializer.Deserialize<T>(text, Options);

    private static JsonSerializerOptions Make(JsonSerializerOptions engines)
    {
        JsonSerializerOptions options = new(engines)
            { TypeInfoResolver = JsonTypeInfoResolver.Combine(CarriedJson.Default, new DefaultJsonTypeInfoResolver()) };
        options.Converters.Insert(0, new EnumWordsFactory());
        return options;
    }
}

/// <summary>What a carried site, its plans' proofs and the list of sites are made of.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(CarriedSite))]
[JsonSerializable(typeof(ReadyCard))]
[JsonSerializable(typeof(ProofReport))]
[JsonSerializable(typeof(ListOf<SiteLine>))]
[JsonSerializable(typeof(SiteLine[]))]
[JsonSerializable(typeof(object[]))]
[JsonSerializable(typeof(string[]))]
[JsonSerializable(typeof(int[]))]
[JsonSerializable(typeof(double[]))]
[JsonSerializable(typeof(AnnualDate[]))]
[JsonSerializable(typeof(IsoDayOfWeek[]))]
[JsonSerializable(typeof(LocalTime[]))]
[JsonSerializable(typeof(DayRuleKind[]))]
[JsonSerializable(typeof(Engine.Controllers.Program[]))]
[JsonSerializable(typeof(ListOf<Engine.Controllers.Program>[]))]
[JsonSerializable(typeof(RunTime[]))]
[JsonSerializable(typeof(PeriodOfYear[]))]
[JsonSerializable(typeof(ControllerSeason[]))]
[JsonSerializable(typeof(VisitStep[]))]
[JsonSerializable(typeof(WeekOfWater[]))]
[JsonSerializable(typeof(TimeWindow[]))]
[JsonSerializable(typeof(WaterSupply[]))]
[JsonSerializable(typeof(Assumption[]))]
[JsonSerializable(typeof(SiteController[]))]
[JsonSerializable(typeof(Zone[]))]
[JsonSerializable(typeof(YearSpan[]))]
[JsonSerializable(typeof(EtoDays[]))]
[JsonSerializable(typeof(FilledDays[]))]
[JsonSerializable(typeof(QuestionedDays[]))]
[JsonSerializable(typeof(ColumnEntry[]))]
[JsonSerializable(typeof(VapourSource[]))]
[JsonSerializable(typeof(CoilReading[]))]
[JsonSerializable(typeof(PhotoView[]))]
[JsonSerializable(typeof(PlanView[]))]
[JsonSerializable(typeof(RecordView<ReadingValue>[]))]
[JsonSerializable(typeof(RecordView<TraceValue>[]))]
[JsonSerializable(typeof(TraceAnswer[]))]
[JsonSerializable(typeof(TextProblem[]))]
[JsonSerializable(typeof(VisitView[]))]
[JsonSerializable(typeof(Breach[]))]
[JsonSerializable(typeof(Practice[]))]
[JsonSerializable(typeof(ReplayedYear[]))]
[JsonSerializable(typeof(SupplyProof[]))]
[JsonSerializable(typeof(WateredStation[]))]
[JsonSerializable(typeof(Watering[]))]
[JsonSerializable(typeof(Workload[]))]
[JsonSerializable(typeof(ZoneProof[]))]
[JsonSerializable(typeof(ZoneYear[]))]
internal sealed partial class CarriedJson : JsonSerializerContext;
