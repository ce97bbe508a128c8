using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using NJsonSchema;
using NJsonSchema.Validation;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Schema;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>The published schema knows what the reader knows: both are made from one table.</summary>
public sealed class SchemaMatchesTheReader
{
    private static readonly string SchemaText = File.ReadAllText(Path.Combine(Checkout.Root, "schema", "valvewright-site.schema.json"));

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
    public void The_schema_is_made_from_the_table_of_fields() => Made.Compare(SiteSchema.Write(), "schema", "valvewright-site.schema.json");

    [Fact]
    public void The_lists_of_the_documentation_are_made_from_the_table_of_fields() =>
        Made.Compare(FieldLists.Fill(File.ReadAllText(Path.Combine(Checkout.Root, "docs", "survey-file.md"))), "docs", "survey-file.md");

    /// <summary>What the schema and the documentation show as a value is read without a problem or a question.</summary>
    [Fact]
    public void Every_example_of_the_table_is_read()
    {
        foreach (SurveyField field in SurveyTable.Groups.SelectMany(group => group.Fields))
        {
            foreach (string example in field.Examples)
            {
                Findings findings = new(field.Key);
                bool isRead = field.Kind.CanRead(new TextNode(example), field.Key, new ReadingContext(findings));
                SurveyReading reading = findings.Reading(null);
                Assert.True(isRead && reading.Problems.Count + reading.Warnings.Count == 0,
                    $"{field.Key}: {example}: {string.Join('\n', reading.Problems.Concat(reading.Warnings))}");
            }
        }
    }

    /// <summary>Help on the page shows the site's own units: an amount that has examples has one for each system.</summary>
    [Fact]
    public void Every_amount_with_examples_has_one_in_the_units_of_each_system()
    {
        IEnumerable<SurveyField> fields = SurveyTable.Groups.SelectMany(group => group.Fields);
        foreach (SurveyField field in fields.Where(field => field is { Kind: QuantityRule, Examples.Count: > 0 }))
        {
            bool isInBoth = field.ExamplesIn(UnitSystem.Metric).Any() && field.ExamplesIn(UnitSystem.UsCustomary).Any();
            Assert.True(isInBoth, $"{field.Key}: {string.Join(", ", field.Examples)}");
        }

        SurveyField elevation = SurveyTable.At("location/elevation")!;
        Assert.Equal(["120 m"], elevation.ExamplesIn(UnitSystem.Metric));
        Assert.Equal(["400 ft"], elevation.ExamplesIn(UnitSystem.UsCustomary));
    }

    [Fact]
    public void Every_field_has_a_name_in_both_languages_and_every_word_that_it_takes_too()
    {
        foreach (FieldGroup group in SurveyTable.Groups)
        {
            Assert.All(group.Fields, field =>
                Assert.True(field.Label is { English.Length: > 1, Spanish.Length: > 1 }, $"{group.Name}/{field.Key} has no label"));
            Assert.All(group.Fields, field => Assert
                .True(field.Help.English.Length > 0 == field.Help.Spanish.Length > 0, $"{group.Name}/{field.Key}: help in one language"));
            Assert.All(group.Fields, field => Assert.True(field.LeftOut.English.Length > 0 == field.LeftOut.Spanish.Length > 0,
                $"{group.Name}/{field.Key}: default in one language"));
            Assert.All(group.Fields.Select(field => field.Kind).OfType<IWords>().SelectMany(words => words.Words), word =>
                Assert.True(word.Name is { English.Length: > 0, Spanish.Length: > 0 }, word.Word));
        }
    }

    private static MapNode Demo(string demo) =>
        YamlTree.Read(File.ReadAllText(Path.Combine(Checkout.Root, "demo", demo, SurveyFiles.UsualName)), new Findings(demo))!;

    /// <summary>Values as an editor's YAML reader sees them: numbers are numbers, the rest is text.</summary>
    private static JsonNode AsJson(SurveyNode node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(entry => KeyValuePair.Create(entry.Key.Text, (JsonNode?)AsJson(entry.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(AsJson)]),
        TextNode text when int.TryParse(text.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int whole) =>
            JsonValue.Create(whole),
        TextNode text when double.TryParse(text.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) =>
            JsonValue.Create(number),
        TextNode text => JsonValue.Create(text.Text),
        _ => throw new JsonException(),
    };
}
