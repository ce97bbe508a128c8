using System.Net;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Pairing;

/// <summary>
/// One code that all devices of an office share: a device that has said it once carries a cookie from then on. Without a code everything
/// passes, which is right only where no one else reaches the server.
/// </summary>
/// <remarks>The cookie holds a digest of the code, so another code ends every pairing. It is not sent with requests from other sites
/// (SameSite=Strict).</remarks>
public sealed class SharedCode(string? code, IClock clock)
{
    /// <summary>Where a device is paired; the code may stand behind it, as it does in a QR code.</summary>
    public const string Address = "/pair";

    /// <summary>Where the cards of a site can be read, and nothing else.</summary>
    public const string ReadAddress = "/read";

    /// <summary>The fewest signs of a code.</summary>
    public const int LeastSigns = 8;

    private const string CookieName = "valvewright-pair";
    private const int MostWrong = 10;
    private const int LongestForm = 1000;
    private static readonly Duration Pause = Duration.FromMinutes(1);
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(400);
    private readonly string? key = code is null ? null : Digest("pair", code);
    private readonly Lock turn = new();
    private Instant since;
    private int wrong;

    /// <summary>The part of a link that lets a site's cards be read; the same as long as the code is. Null without a code.</summary>
    public string? ReadKey(Guid site) => code is null ? null : Digest($"read {site}", code)[..32];

    /// <summary>Lets through who is paired, pairs who says the code, and refuses the rest.</summary>
    public Task Pass(HttpContext http, RequestDelegate next)
    {
        string path = http.Request.Path.Value ?? "/";
        if (key is null || ((path.StartsWith(ReadAddress + "/", StringComparison.Ordinal)
            || path.StartsWith(Nights.FeedEndpoints.Address + "/", StringComparison.Ordinal)
            || path.StartsWith(Hosting.HealthEndpoints.Address + "/", StringComparison.Ordinal)) && http.GetEndpoint() is not null))
        {
            return next(http);
        }

        if (path == Address || path.StartsWith(Address + "/", StringComparison.Ordinal))
        {
            return Pair(http, path);
        }

        if (http.Request.Cookies[CookieName] is { } carried && Same(carried, key))
        {
            return next(http);
        }

        if (path.StartsWith("/api", StringComparison.OrdinalIgnoreCase))
        {
            throw new Refusal(StatusCodes.Status401Unauthorized, "not-paired", "This device is not paired with the server.")
                .Expecting("a device that has opened the pairing link");
        }

        // A browser that has not been paired is led to where it can be; the files of the page hold nothing of any site, but wait as well.
        http.Response.StatusCode = StatusCodes.Status401Unauthorized;
        return Form(http, "");
    }

    private async Task Pair(HttpContext http, string path)
    {
        string? said = path.Length > Address.Length + 1 ? path[(Address.Length + 1)..] : null;
        if (said is null && HttpMethods.IsPost(http.Request.Method))
        {
            if (http.Request.ContentLength is null or > LongestForm || !http.Request.HasFormContentType)
            {
                throw new Refusal(StatusCodes.Status400BadRequest, "wrong-input", "Not a code.");
            }

            said = (await http.Request.ReadFormAsync(http.RequestAborted))["code"];
        }

        if (said is null)
        {
            await Form(http, "");
            return;
        }

        lock (turn)
        {
            Instant now = clock.GetCurrentInstant();
            if (now - since >= Pause)
            {
                (since, wrong) = (now, 0);
            }

            if (wrong >= MostWrong)
            {
                throw new Refusal(StatusCodes.Status429TooManyRequests, "too-many-codes",
                    "Too many wrong codes. Wait a minute, then try again.");
            }

            if (!Same(Digest("pair", said), key!))
            {
                wrong++;
                said = null;
            }
        }

        if (said is null)
        {
            http.Response.StatusCode = StatusCodes.Status403Forbidden;
            await Form(http, "This is not the code. / Este no es el código.");
            return;
        }

        http.Response.Cookies.Append(
            CookieName, key!, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = http.Request.IsHttps,
                MaxAge = Lasts, Path = "/", IsEssential = true });
        // A page of its own, not a redirect: the first request with the cookie is then made from here, and is not taken for one from
        // elsewhere.
        await Html(http, "<p>This device is paired. / Este dispositivo está vinculado.</p><p><a href=\"/\">Valvewright</a></p>");
    }

    private static Task Form(HttpContext http, string trouble) => Html(http,
        (trouble.Length == 0 ? "" : $"<p role=\"alert\"><b>{WebUtility.HtmlEncode(trouble)}</b></p>")
        + "<p>Scan the pairing code of your office, or key it in. / Escanee el código de su oficina, o escríbalo.</p>"
        + $"<form method=\"post\" action=\"{Address}\"><p><label>Code / Código<br><input name=\"code\" required autocomplete=\"off\" autocapitalize=\"characters\"></label></p><p><button>OK</button></p></form>");

    private static Task Html(HttpContext http, string body)
    {
        http.Response.Headers.ContentSecurityPolicy = "default-src 'none'; form-action 'self'; frame-ancestors 'none'";
        http.Response.Headers.CacheControl = "no-store";
        // With no referrer at all, browsers send the form as if it came from nowhere, and the guard refuses it.
        http.Response.Headers["Referrer-Policy"] = "same-origin";
        http.Response.ContentType = "text/html; charset=utf-8";
        return http.Response.WriteAsync(
            $"<!DOCTYPE html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>Valvewright</title><h1>Valvewright</h1>{body}</html>", http.RequestAborted);
    }

    /// <summary>A code as people key it in: case and blanks do not count.</summary>
    public static string Plain(string said) => string.Concat(said.Where(c => !char.IsWhiteSpace(c) && c != '-')).ToUpperInvariant();

    private static string Digest(string use, string code) =>
        Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(Plain(code)), Encoding.UTF8.GetBytes("valvewright " + use)));

    private static bool Same(string a, string b) =>
        CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(a), Encoding.UTF8.GetBytes(b));
}
