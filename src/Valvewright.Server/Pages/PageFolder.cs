using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Valvewright.Server.Pages;

/// <summary>
/// The published page as it lay in its folder when the server started. It is read once: names in addresses are looked up among the
/// names found then, so that no address can lead out of the folder, and a page that is published again is never served in a mixture.
/// </summary>
internal sealed partial class PageFolder
{
    public const string StartName = "index.html";

    private const long LargestBytes = 200_000_000;

    private readonly Dictionary<string, PageFile> files = new(StringComparer.Ordinal);

    private PageFolder(string policy) => Policy = policy;

    /// <summary>What the page may load and run (Content-Security-Policy).</summary>
    public string Policy { get; }

    /// <summary>The page itself.</summary>
    public PageFile Start => files[StartName];

    /// <summary>Reads the folder.</summary>
    /// <exception cref="IOException">It is not there, holds no page, or holds more than any page.</exception>
    public static PageFolder Read(string folder)
    {
        string start = Path.Combine(folder, StartName);
        if (!File.Exists(start))
        {
            throw new IOException($"{folder} holds no page: there is no {StartName} in it.");
        }

        string[] paths = Directory.GetFiles(folder, "*", SearchOption.AllDirectories);
        if (paths.Sum(p => new FileInfo(p).Length) > LargestBytes)
        {
            throw new IOException($"{folder} holds more than a page.");
        }

        HashSet<string> all = [.. paths];
        PageFolder page = new(PolicyFor(File.ReadAllText(start)));
        foreach (string path in paths.Where(p => !IsPacked(p, all)))
        {
            string name = Path.GetRelativePath(folder, path).Replace(Path.DirectorySeparatorChar, '/');
            page.files.Add(name, PageFile.Of(name, File.ReadAllBytes(path), Packed(path + ".br", all), Packed(path + ".gz", all)));
        }

        return page;
    }

    /// <summary>What is meant by an address: a file; for an address without a dot the page itself, which has addresses of its own; else
    /// null.</summary>
    public PageFile? At(string path)
    {
        string name = path.TrimStart('/');
        return files.TryGetValue(name, out PageFile? file) ? file : IsRoute(path) ? Start : null;
    }

    /// <summary>Whether an address is one of the page's own, to which a link from elsewhere may lead.</summary>
    public static bool IsRoute(string path) =>
        path != "/api" && !path.StartsWith("/api/", StringComparison.OrdinalIgnoreCase) && !path[(path.LastIndexOf('/') + 1)..]
            .Contains('.', StringComparison.Ordinal);

    private static bool IsPacked(string path, HashSet<string> all) => Path.GetExtension(path) is ".br" or ".gz" && all.Contains(path[..^3]);

    private static byte[]? Packed(string path, HashSet<string> all) => all.Contains(path) ? File.ReadAllBytes(path) : null;

    /// <summary>Own files only; of scripts in the page itself, those that stand there now.</summary>
    private static string PolicyFor(string html)
    {
        IEnumerable<string> own = InlineScript().Matches(html.ReplaceLineEndings("\n"))
            .Select(m => $"'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(m.Groups[1].Value)))}'").Distinct();
        return "default-src 'self'; script-src " + string.Join(' ', own.Prepend("'wasm-unsafe-eval'").Prepend("'self'"))
            + "; style-src 'self'; img-src 'self' blob: data:; "
            + "connect-src 'self'; worker-src 'self'; manifest-src 'self'; object-src 'none'; base-uri 'self'; form-action 'self'; " +
                "frame-ancestors 'none'";
    }

    [GeneratedRegex(@"<script(?![^>]*\ssrc\s*=)[^>]*>(.*?)</script>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex InlineScript();
}
