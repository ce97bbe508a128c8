using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Surveys.Schema;

/// <summary>The JSON Schema of the site file, for editors, made from the table of fields.</summary>
public static partial class SiteSchema
{
    /// <summary>The schema's text.</summary>
    public static string Write()
    {
        JsonObject schema = new()
        {
            ["$schema"] = "http://json-schema.org/draft-07/schema#",
            ["$comment"] = "Made from the table of survey fields (Files/Surveys/Fields); a test compares the two.",
            ["title"] = "Valvewright site file",
        };
        foreach ((string key, JsonNode? value) in GroupNode(SurveyTable.Site).ToArray()) schema[key] = value?.DeepClone();
        schema["definitions"] = Named(SurveyTable.Groups.Skip(1), group => group.Name, GroupNode);
        string text = schema.ToJsonString(Json.Options);
        return WordArray().Replace(text, found => OnOneLine(found.Value)) + "\n";
    }

    private static JsonObject GroupNode(FieldGroup group)
    {
        JsonObject node = new()
        {
            ["type"] = "object",
            ["additionalProperties"] = false,
            ["properties"] = Named(group.Fields, field => field.Key, FieldNode),
        };
        JsonNode[] needed = [.. group.Fields.Where(field => field.IsNeeded).Select(field => (JsonNode)field.Key)];
        if (needed.Length > 0) node["required"] = new JsonArray(needed);
        JsonNode[] choices = [.. group.OneOf.Select(key => new JsonObject { ["required"] = new JsonArray(key) })];
        if (choices.Length > 0) node["oneOf"] = new JsonArray(choices);
        return node;
    }

    private static JsonObject FieldNode(SurveyField field)
    {
        JsonObject node = KindNode(field.Kind);
        if (node.ContainsKey("$ref")) node = new JsonObject { ["allOf"] = new JsonArray(node) };
        string description = $"{field.Label.English}{(field.Help.IsEmpty ? "" : $". {field.Help.English}")}";
        node.Insert(0, "description", description.TrimEnd('.') + "." + Units(field.Kind));
        if (field.Examples.Count > 0) node["examples"] = new JsonArray([.. field.Examples.Select(example => (JsonNode)example)]);
        return node;
    }

    private static string Units(FieldKind kind) => kind is not QuantityRule rule || rule.Metric == Engine.Quantities.Units.Percent ? ""
        : rule.Metric == rule.Us ? $" Plain numbers are in {rule.Metric.Symbol}."
        : $" Plain numbers are in {rule.Metric.Symbol} or {rule.Us.Symbol}.";

    private static JsonObject KindNode(FieldKind kind) => kind switch
    {
        KeysKind { ShortKey: { } key } keys => Any(KindNode(keys.Group[key]!.Kind), Reference(keys.Group)),
        KeysKind { Name: not null } keys => Any(Typed("string"), Reference(keys.Group)),
        KeysKind keys => Reference(keys.Group),
        ListKind { TakesOne: true } list => Any(KindNode(list.Item), ListNode(list)),
        ListKind list => ListNode(list),
        WholeKind whole => new JsonObject { ["type"] = "integer", ["minimum"] = whole.Least, ["maximum"] = whole.Largest },
        NumberKind { Words: { } words } number => Any(KindNode(words), Number(number)),
        NumberKind number => Number(number),
        YesNoKind => Words([true, false, .. YesNoKind.Spellings.Select(word => (JsonNode)word)]),
        IWords words => Words([.. words.Spellings.Concat(words.Names.Select(Capital)).Select(word => (JsonNode)word)]),
        QuantityRule or DegreesKind or SoilWaterKind => new JsonObject { ["type"] = new JsonArray("number", "string") },
        _ => Typed("string"),
    };

    private static JsonObject ListNode(ListKind list)
    {
        JsonObject node = new() { ["type"] = "array", ["items"] = KindNode(list.Item), ["minItems"] = list.Least };
        if (list.Most is { } most) node["maxItems"] = most;
        return node;
    }

    private static JsonObject Number(NumberKind kind) =>
        new() { ["type"] = "number", ["minimum"] = kind.Least, ["maximum"] = kind.Largest };

    private static JsonObject Words(JsonNode[] words) => new() { ["enum"] = new JsonArray(words) };

    private static JsonObject Typed(string type) => new() { ["type"] = type };

    private static JsonObject Any(params JsonNode[] nodes) => new() { ["anyOf"] = new JsonArray(nodes) };

    private static JsonObject Reference(FieldGroup group) => new() { ["$ref"] = $"#/definitions/{group.Name}" };

    private static string Capital(string word) => char.ToUpperInvariant(word[0]) + word[1..];

    private static string OnOneLine(string array) =>
        Regex.Replace(array, @"\s*\n\s*", " ").Replace("[ ", "[", StringComparison.Ordinal).Replace(" ]", "]", StringComparison.Ordinal);

    private static JsonObject Named<T>(IEnumerable<T> items, Func<T, string> name, Func<T, JsonNode> node) =>
        new(items.Select(item => KeyValuePair.Create(name(item), (JsonNode?)node(item))));

    [GeneratedRegex(@"\[\s*(?:(?:""[^""]*""|true|false|\d+),?\s*)+\]")]
    private static partial Regex WordArray();
}
