using System.Net;
using System.Reflection;
using System.Text;
using System.Text.RegularExpressions;
using Valvewright.Files.Texts;

namespace Valvewright.Server.Carrying;

/// <summary>Puts the page's own scripts and styles of the work at a controller into one file.</summary>
internal static partial class OneFileHtml
{
    /// <summary>The scripts, each behind those that it uses; what only an installed page can do is left out.</summary>
    private static readonly string[] Scripts =
        ["dates", "settings", "checktext", "reading", "say", "dom", "rows", "edit", "screens", "measured", "done", "flow", "carried"];

    private static readonly string[] Styles = ["page.css", "parts.css", "flow.css"];

    /// <summary>The page.</summary>
    public static string Write(string site, Language language, string sheet, string year, string verdict)
    {
        StringBuilder page = new();
        page.Append("<!DOCTYPE html>\n<html lang=\"").Append(language == Language.Spanish ? "es" : "en")
            .Append("\">\n<head>\n<meta charset=\"utf-8\">\n")
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" " +
                "content=\"light dark\">\n")
            .Append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'unsafe-inline'; style-src " +
                "'unsafe-inline'; img-src data: blob:; font-src data:\">\n")
            .Append("<title>").Append(WebUtility.HtmlEncode(site)).Append(" – Valvewright</title>\n<style>\n");
        foreach (string style in Styles)
        {
            page.Append(FontUrl()
                .Replace(Text(style), m => $"url(data:font/ttf;base64,{Convert.ToBase64String(Bytes(m.Groups[1].Value))})")).Append('\n');
        }

        page.Append("</style>\n</head>\n<body>\n<div id=\"at\"></div>\n")
            .Append("<script type=\"application/json\" id=\"sheet\">").Append(Inert(sheet)).Append("</script>\n")
            .Append("<script type=\"application/json\" id=\"year\">").Append(Inert(year)).Append("</script>\n")
            .Append("<script type=\"application/json\" id=\"verdict\">").Append(verdict).Append("</script>\n<script type=\"module\">\n");
        foreach (string script in Scripts)
        {
            page.Append(Room(script, Text(script + ".js")));
        }

        return page.Append("</script>\n</body>\n</html>\n").ToString();
    }

    /// <summary>A module as a room of its own: what it imports comes from the rooms before it, what it exports is what it gives.</summary>
    internal static string Room(string name, string module)
    {
        string[] given = [.. Export().Matches(module).Select(m => m.Groups[2].Value)];
        string body = Export().Replace(Import().Replace(module, m => $"const {{{m.Groups[1].Value}}} = {RoomOf(m.Groups[2].Value)};"), m =>
            $"{m.Groups[1].Value}{m.Groups[2].Value}");
        return $"const {RoomOf(name)} = (() => {{\n{body}\nreturn {{ {string.Join(", ", given)} }};\n}})();\n";
    }

    private static string RoomOf(string name) => "in_" + name.Replace('-', '_');

    /// <summary>JSON that cannot end its own element.</summary>
    private static string Inert(string json) => json.Replace("<", "\\u003c", StringComparison.Ordinal);

    private static string Text(string name) => Encoding.UTF8.GetString(Bytes(name)).TrimStart('\ufeff');

    private static byte[] Bytes(string name)
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream($"Valvewright.Server.Carried.{name}")
            ?? throw new InvalidOperationException($"{name} is missing from this build.");
        using MemoryStream bytes = new();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    [GeneratedRegex(@"^import \{([^}]*)\} from '\./([\w-]+)\.js';$", RegexOptions.Multiline)]
    private static partial Regex Import();

    [GeneratedRegex(@"^export ((?:async )?(?:const |function |class ))(\w+)", RegexOptions.Multiline)]
    private static partial Regex Export();

    [GeneratedRegex(@"url\(\.\./fonts/([\w.-]+)\)")]
    private static partial Regex FontUrl();
}
