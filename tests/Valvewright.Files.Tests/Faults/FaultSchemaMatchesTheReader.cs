using System.Text.Json.Nodes;
using NJsonSchema;
using Valvewright.Engine.Faults;
using Valvewright.Files.Faults;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Tests;
using YamlDotNet.Serialization;

namespace Valvewright.Files.Tests.Faults;

/// <summary>The published schema of fault models knows what the reader knows.</summary>
public sealed class FaultSchemaMatchesTheReader
{
    private static readonly string Text = File.ReadAllText(Path.Combine(Checkout.Root, "schema", "valvewright-faults.schema.json"));
    private static readonly JsonObject Schema = JsonNode.Parse(Text)!.AsObject();

    [Fact]
    public async Task The_model_that_ships_satisfies_the_schema()
    {
        JsonSchema schema = await JsonSchema.FromJsonAsync(Text);
        object? yaml = new DeserializerBuilder().WithAttemptingUnquotedStringTypeDeserialization().Build()
            .Deserialize(new StringReader(FaultModelFiles.Text));
        string json = new SerializerBuilder().JsonCompatible().Build().Serialize(yaml);
        Assert.Empty(schema.Validate(json.Replace("\"phone\": \"yes\"", "\"phone\": true", StringComparison.Ordinal)
            .Replace("\"phone\": \"no\"", "\"phone\": false", StringComparison.Ordinal)).Select(e => e.ToString()));
    }

    [Fact]
    public void Every_key_of_the_reader_is_in_the_schema_and_every_key_of_the_schema_in_the_reader()
    {
        Assert.Equal(FaultKeys.Root.Keys.Order(StringComparer.Ordinal), Keys(Schema));
        foreach (FieldGroup keys in FaultKeys.All.Where(k => k != FaultKeys.Root))
        {
            Assert.Equal(keys.Keys.Order(StringComparer.Ordinal), Keys(Schema["definitions"]![keys.Name]!.AsObject()));
        }

        Assert.Equal(FaultKeys.Quantities.Keys.Order(StringComparer.Ordinal),
            Words(Schema["definitions"]!["step"]!["properties"]!["expects"]!["enum"]!));
        Assert.Equal(TraceFacts.Conditions.Order(StringComparer.Ordinal),
            Words(Schema["definitions"]!["cause"]!["properties"]!["when"]!["items"]!["enum"]!));
    }

    private static IEnumerable<string> Keys(JsonObject definition) =>
        definition["properties"]!.AsObject().Select(p => p.Key).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Words(JsonNode list) =>
        list.AsArray().Select(w => w!.GetValue<string>()).Order(StringComparer.Ordinal);
}
