using System.Security.Cryptography;
using System.Text.RegularExpressions;

namespace Valvewright.Server.Pages;

/// <summary>A file of the page, with what was packed of it when the page was published.</summary>
/// <param name="Type">Its media type.</param>
/// <param name="Caching">How long a browser may keep it.</param>
/// <param name="Forms">The file as it is, and packed, the form that browsers shall have first.</param>
/// <param name="IsOwnWorld">Whether it runs by a policy of its own, as page and service worker do; scripts run by that of the page.</param>
internal sealed partial record PageFile(string Type, string Caching, IReadOnlyList<PageForm> Forms, bool IsOwnWorld)
{
    /// <summary>A name that changes with the content never needs to be asked for again.</summary>
    private const string ForEver = "public, max-age=31536000, immutable";

    /// <summary>Asked for each time, and sent only when it has changed.</summary>
    private const string AskFirst = "no-cache";

    /// <summary>The service worker decides what is kept: a kept one would keep an old page alive.</summary>
    private const string Never = "no-store";

    private const string ServiceWorker = "service-worker.js";

    private static readonly Dictionary<string, string> Types = new(StringComparer.OrdinalIgnoreCase)
    {
        [".html"] = "text/html; charset=utf-8", [".js"] = "text/javascript; charset=utf-8", [".mjs"] = "text/javascript; charset=utf-8",
            [".css"] = "text/css; charset=utf-8",
        [".json"] = "application/json", [".webmanifest"] = "application/manifest+json", [".wasm"] = "application/wasm",
            [".map"] = "application/json",
        [".svg"] = "image/svg+xml", [".png"] = "image/png", [".jpg"] = "image/jpeg", [".webp"] = "image/webp", [".ico"] = "image/x-icon",
        [".woff2"] = "font/woff2", [".ttf"] = "font/ttf", [".txt"] = "text/plain; charset=utf-8",
    };

    /// <summary>A file by its name within the page's folder, with <c>/</c> between folders.</summary>
    public static PageFile Of(string name, byte[] plain, byte[]? brotli, byte[]? gzip)
    {
        List<PageForm> forms = [];
        if (brotli is not null)
        {
            forms.Add(PageForm.Of("br", brotli));
        }

        if (gzip is not null)
        {
            forms.Add(PageForm.Of("gzip", gzip));
        }

        forms.Add(PageForm.Of("", plain));
        string type = Types.GetValueOrDefault(Path.GetExtension(name), "application/octet-stream");
        return new PageFile(type, CachingOf(name), forms, IsWorld(name));
    }

    private static bool IsWorld(string name) => name == ServiceWorker || Path.GetExtension(name) == ".html";

    private static string CachingOf(string name) =>
        name == ServiceWorker ? Never : FrameworkName().IsMatch(name) || FingerprintedName().IsMatch(name) ? ForEver : AskFirst;

    /// <summary>The publisher puts ten letters or digits of the content's hash before the ending.</summary>
    [GeneratedRegex(@"^_framework/.+\.[a-z0-9]{10}\.[a-z0-9]+$")]
    private static partial Regex FrameworkName();

    /// <summary>The same elsewhere, where a word of ten letters could stand: there a digit tells.</summary>
    [GeneratedRegex(@"\.(?=[a-z0-9]*[0-9])[a-z0-9]{10}\.[a-z0-9]+$")]
    private static partial Regex FingerprintedName();
}

/// <summary>Bytes of a file as they are sent.</summary>
/// <param name="Encoding">br, gzip, or empty for the file as it is.</param>
/// <param name="Bytes">The bytes.</param>
/// <param name="Tag">Their ETag.</param>
internal sealed record PageForm(string Encoding, byte[] Bytes, string Tag)
{
    public static PageForm Of(string encoding, byte[] bytes) =>
        new(encoding, bytes, $"\"{Convert.ToHexStringLower(SHA256.HashData(bytes))[..32]}\"");
}
