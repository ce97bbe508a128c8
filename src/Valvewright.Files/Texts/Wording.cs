using System.Globalization;
using System.Reflection;
using System.Text;
using System.Text.Json;

namespace Valvewright.Files.Texts;

/// <summary>The texts that a person reads, in one language.</summary>
/// <remarks>
/// Every language is one embedded file <c>Texts/&lt;code&gt;.json</c> of names and texts with places in braces:
/// <c>"card.page": "Page {page} of {pages}"</c>. A text that differs for one thing and many stands twice, as
/// <c>name.one</c> and <c>name.other</c>. Plain files rather than satellite assemblies: they work the same without
/// culture data and in a browser. A test holds all languages to the same names and places.
/// </remarks>
public sealed class Wording
{
    private const string Folder = "Valvewright.Files.Texts.";
    private static readonly Lazy<Wording> EnglishTexts = new(() => Of(Language.English, typeof(Wording).Assembly, Folder));
    private static readonly Lazy<Wording> SpanishTexts = new(() => Of(Language.Spanish, typeof(Wording).Assembly, Folder));
    private readonly Dictionary<string, string> texts;

    private Wording(Language language, Dictionary<string, string> texts)
    {
        Language = language;
        this.texts = texts;
    }

    /// <summary>Which language this is.</summary>
    public Language Language { get; }

    /// <summary>All names of texts.</summary>
    public IEnumerable<string> Names => texts.Keys;

    /// <summary>The text of that name as it stands.</summary>
    /// <exception cref="KeyNotFoundException">No text has the name.</exception>
    public string this[string name] =>
        texts.TryGetValue(name, out string? text) ? text : throw new KeyNotFoundException($"No text is named '{name}' in {Language}.");

    /// <summary>The texts of a language.</summary>
    public static Wording In(Language language) => language switch
    {
        Language.English => EnglishTexts.Value,
        Language.Spanish => SpanishTexts.Value,
        _ => throw new ArgumentOutOfRangeException(nameof(language), language, null),
    };

    /// <summary>The texts of a language out of the embedded files of an assembly.</summary>
    /// <param name="language">The language.</param>
    /// <param name="assembly">Where the files are embedded.</param>
    /// <param name="folder">What their names begin with; they end with the language's code.</param>
    /// <exception cref="InvalidOperationException">File not found, or two hold a text of one name.</exception>
    public static Wording Of(Language language, Assembly assembly, string folder)
    {
        ArgumentNullException.ThrowIfNull(assembly);
        string end = language == Language.Spanish ? "es.json" : "en.json";
        Dictionary<string, string> texts = [];
        foreach (string file in assembly.GetManifestResourceNames().Where(n => n.StartsWith(folder, StringComparison.Ordinal)
            && n.EndsWith(end, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using Stream stream = assembly.GetManifestResourceStream(file)!;
            foreach ((string name, string text) in JsonSerializer.Deserialize(stream, TextsJson.Default.DictionaryStringString)!)
            {
                if (!texts.TryAdd(name, text))
                {
                    throw new InvalidOperationException($"The text '{name}' is there twice in {language}; the second time in {file}.");
                }
            }
        }

        return texts.Count > 0 ? new Wording(language, texts)
            : throw new InvalidOperationException($"No texts in {language} in {assembly.GetName().Name}.");
    }

    /// <summary>The text with its places filled.</summary>
    /// <exception cref="FormatException">The text has a place that no value was given for.</exception>
    public string Fill(string name, params ReadOnlySpan<(string Place, object Value)> values)
    {
        string text = this[name];
        StringBuilder filled = new();
        int at = 0;
        while (at < text.Length)
        {
            int open = text.IndexOf('{', at);
            if (open < 0)
            {
                break;
            }

            int close = text.IndexOf('}', open);
            filled.Append(text, at, open - at).Append(ValueOf(text[(open + 1)..close], values, name));
            at = close + 1;
        }

        return filled.Append(text, at, text.Length - at).ToString();
    }

    /// <summary>A percent as the language writes it: <c>50%</c>, in Spanish <c>50 %</c>.</summary>
    public string Percent(object number) =>
        $"{Convert.ToString(number, CultureInfo.InvariantCulture)}{(Language == Language.Spanish ? " " : "")}%";

    /// <summary>A whole number, its thousands separated as the language does it: <c>1,869</c>, in Spanish <c>1 869</c>.</summary>
    public string Whole(double number) =>
        number.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', Language == Language.Spanish ? '\u00a0' : ',');

    /// <summary>The text for that many things: <c>name.one</c> for 1, else <c>name.other</c>; the place <c>n</c> is the number.</summary>
    public string Count(string name, int n) => Fill($"{name}.{(n == 1 ? "one" : "other")}", ("n", n));

    private static string ValueOf(string place, ReadOnlySpan<(string Place, object Value)> values, string name)
    {
        foreach ((string given, object value) in values)
        {
            if (given == place)
            {
                return Convert.ToString(value, CultureInfo.InvariantCulture) ?? "";
            }
        }

        throw new FormatException($"The text '{name}' has the place {{{place}}}, but no value was given for it.");
    }
}

/// <summary>What a file of texts is made of, known beforehand: finding it out by reflection takes a phone longer than reading the
/// texts.</summary>
[System.Text.Json.Serialization.JsonSerializable(typeof(Dictionary<string, string>))]
internal sealed partial class TextsJson : System.Text.Json.Serialization.JsonSerializerContext;
