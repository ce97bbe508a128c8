using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using NJsonSchema;
using NJsonSchema.Validation;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>The published schema knows what the reader knows: no key or word more, none less.</summary>
public sealed class SchemaMatchesTheReader
{
    private static readonly string SchemaText = File.ReadAllText(Path.Combine(Checkout.Root, "schema", "valvewright-site.schema.json"));
    private static readonly JsonObject Schema = JsonNode.Parse(SchemaText)!.AsObject();

    [Theory]
    [MemberData(nameof(DemoSitesRead.Demos), MemberType = typeof(DemoSitesRead))]
    public async Task A_demo_site_satisfies_the_schema(string demo)
    {
        JsonSchema schema = await JsonSchema.FromJsonAsync(SchemaText);
        Assert.Empty(schema.Validate(AsJson(Demo(demo)).ToJsonString()).Select(error => error.ToString()));
    }

    [Theory]
    [InlineData("units", "metrc")]
    [InlineData("clock", "13 hours")]
    [InlineData("colour", "green")]
    public async Task A_wrong_word_or_key_does_not(string key, string value)
    {
        JsonSchema schema = await JsonSchema.FromJsonAsync(SchemaText);
        JsonObject site = AsJson(Demo("quarry-hill")).AsObject();
        site[key] = value;
        ICollection<ValidationError> errors = schema.Validate(site.ToJsonString());
        Assert.NotEmpty(errors);
    }

    [Fact]
    public void Every_key_of_the_reader_is_in_the_schema_and_every_key_of_the_schema_in_the_reader()
    {
        foreach (KeySet keys in KeySet.All) Assert.Equal(keys.Keys.Order(StringComparer.Ordinal), Definition(keys.Name)["properties"]!.AsObject().Select(p => p.Key).Order(StringComparer.Ordinal));
        string[] others = ["soilOrTexture"];
        Assert.Equal(KeySet.All.Select(keys => keys.Name).Concat(others).Except(["site"]).Order(), Schema["definitions"]!.AsObject().Select(d => d.Key).Order());
    }

    [Fact]
    public void Every_list_of_words_is_the_readers()
    {
        Same(Words.UnitSystems.Keys, "site", "units");
        Same(Words.Clocks.Keys, "site", "clock");
        Same(Words.Climates.Keys, "site", "climate");
        Same(Words.Dates.Keys, "permitted", "dates");
        Same(Words.Stages.Keys, "plants", "stage");
        Same(Words.WaterUses.Keys, "plants", "water use");
        Same(Words.Densities.Keys, "plants", "density");
        Same(Words.Microclimates.Keys, "plants", "microclimate");
        Same(PlantKinds.All.Select(kind => kind.Name), "plants", "kind");
        Same(PlantKinds.All.Select(kind => kind.Name), "zone", "plants");
        Same(SoilTextures.Classes.Concat(SoilTextures.TakenAs.Keys), "soil", "texture");
        Same(Words.Emissions.Keys, "sprinklers", "kind");
        Same(Words.DayRules.Keys, "profile", "day rules");
        Same(Words.DayRules.Keys, "controller", "day rules");
        Same(Words.Overlaps.Keys, "profile", "overlap");
        Same(Words.Roundings.Keys, "profile", "rounding");
        Same(WeatherLayouts.Words, "weather", "layout");
        Same(WeatherServices.Words, "weather", "service");
        Assert.Equal(GenericProfiles.All.Select(profile => profile.Name), Strings(Find(Definition("controller")["properties"]!["profile"]!, "examples")!));
        Assert.Equal(Words.Weekdays.Keys.Order(), Strings(Find(Definition("permitted")["properties"]!["days"]!, "enum")!).Select(day => day.ToLowerInvariant()).Distinct().Order());
    }

    private static void Same(IEnumerable<string> words, string definition, string key) =>
        Assert.Equal(words.Order(StringComparer.Ordinal), Strings(Find(Definition(definition)["properties"]![key]!, "enum")!).Order(StringComparer.Ordinal));

    private static JsonObject Definition(string name) => (name == "site" ? Schema : Schema["definitions"]![name]!).AsObject();

    private static IEnumerable<string> Strings(JsonArray array) => array.Select(word => word!.GetValue<string>());

    private static JsonArray? Find(JsonNode node, string key) => node switch
    {
        JsonObject map when map[key] is JsonArray found => found,
        JsonObject map => map.Select(property => property.Value is null ? null : Find(property.Value, key)).FirstOrDefault(found => found is not null),
        JsonArray list => list.Select(item => item is null ? null : Find(item, key)).FirstOrDefault(found => found is not null),
        _ => null,
    };

    private static MapNode Demo(string demo) =>
        YamlTree.Read(File.ReadAllText(Path.Combine(Checkout.Root, "demo", demo, SurveyFiles.UsualName)), new Findings(demo))!;

    /// <summary>Values as an editor's YAML reader sees them: numbers are numbers, the rest is text.</summary>
    private static JsonNode AsJson(SurveyNode node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(entry => KeyValuePair.Create(entry.Key.Text, (JsonNode?)AsJson(entry.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(AsJson)]),
        TextNode text when int.TryParse(text.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int whole) => JsonValue.Create(whole),
        TextNode text when double.TryParse(text.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) => JsonValue.Create(number),
        TextNode text => JsonValue.Create(text.Text),
        _ => throw new JsonException(),
    };
}
