using System.Text.Json;

namespace Valvewright.Server.People.Forms;

/// <summary>The words of the sign-in pages, in the language that the request asks for.</summary>
internal sealed class FormTexts
{
    private static readonly FormTexts English = Read("en"), Spanish = Read("es");
    private readonly Dictionary<string, string> texts;

    private FormTexts(string language, Dictionary<string, string> texts) => (Language, this.texts) = (language, texts);

    /// <summary>The language as HTML names it.</summary>
    public string Language { get; }

    /// <summary>The other one.</summary>
    public string Other => Language == "en" ? "es" : "en";

    public string this[string name] => texts["people." + name];

    /// <summary>By the address, else by what the browser prefers.</summary>
    public static FormTexts Of(HttpRequest request)
    {
        string said = request.Query["language"].ToString();
        string first = request.GetTypedHeaders().AcceptLanguage.OrderByDescending(l => l.Quality ?? 1).FirstOrDefault()?.Value.Value ?? "";
        return said == "es" || (said != "en" && first.StartsWith("es", StringComparison.OrdinalIgnoreCase)) ? Spanish : English;
    }

    /// <summary>A text with its places filled.</summary>
    public string Fill(string name, params (string Place, object Value)[] places) =>
        places.Aggregate(this[name], (text, p) => text.Replace($"{{{p.Place}}}", $"{p.Value}", StringComparison.Ordinal));

    private static FormTexts Read(string language)
    {
        using Stream stream = typeof(FormTexts).Assembly.GetManifestResourceStream($"Valvewright.Server.People.{language}.json")!;
        return new FormTexts(language, JsonSerializer.Deserialize<Dictionary<string, string>>(stream)!);
    }
}
