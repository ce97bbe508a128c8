using System.Net;
using System.Reflection;
using Valvewright.Server.Pages;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Hosting;

/// <summary>What every request has to pass before anything looks at it.</summary>
internal sealed class Guard(ServerOptions options)
{
    private readonly HashSet<string> hosts = new(Hosts(options), StringComparer.OrdinalIgnoreCase);

    /// <summary>Refuses requests under a strange name, from a page of another origin, and with parameters that mean nothing.</summary>
    public Task Pass(HttpContext http, RequestDelegate next)
    {
        Headers(http.Response.Headers);
        // A page elsewhere can make its own name point here; it can't change the name that the browser then sends.
        if (!hosts.Contains(http.Request.Host.Host))
        {
            throw new Refusal(StatusCodes.Status421MisdirectedRequest, "strange-host", "This server does not answer under that name.")
                .Found($"{http.Request.Host.Value}")
                    .Expecting("localhost, the server's address, or a name given to it when it was started");
        }

        foreach (string? origin in http.Request.Headers.Origin)
        {
            if (!IsOwn(origin, http.Request.Host))
            {
                throw new Refusal(StatusCodes.Status403Forbidden, "foreign-origin", "Pages of other origins may not use this server.")
                    .Found($"{origin}");
            }
        }

        if (http.Request.Headers["Sec-Fetch-Site"] is [{ } site] && site is "cross-site" or "same-site" && !IsLinkToPage(http.Request))
        {
            throw new Refusal(StatusCodes.Status403Forbidden, "foreign-origin", "Pages of other origins may not use this server.")
                .Found($"{site}");
        }

        Parameters(http);
        return next(http);
    }

    /// <summary>A person follows a link, of a letter for instance, to the page: it only shows the page, which then asks from its own
    /// origin.</summary>
    private bool IsLinkToPage(HttpRequest request) =>
        (options.Page is not null || options.SignIn) && HttpMethods.IsGet(request.Method) && request.Headers["Sec-Fetch-Mode"] == "navigate"
            && request.Headers["Sec-Fetch-Dest"] == "document"
        && PageFolder.IsRoute(request.Path.Value ?? "/");

    private static bool IsOwn(string? origin, HostString host) =>
        string.Equals(origin, $"http://{host.Value}", StringComparison.OrdinalIgnoreCase)
            || string.Equals(origin, $"https://{host.Value}", StringComparison.OrdinalIgnoreCase);

    /// <summary>A parameter that no one reads is a mistake of the one who sent it.</summary>
    private static void Parameters(HttpContext http)
    {
        if (http.GetEndpoint()?.Metadata.GetMetadata<MethodInfo>() is not { } method)
        {
            return;
        }

        string[] known = [.. method.GetParameters().Where(p => p.GetCustomAttribute<FromHeader>() is null && IsPlain(p.ParameterType))
            .Select(p => p.Name!).Where(n => !http.Request.RouteValues.ContainsKey(n))];
        foreach ((string name, var values) in http.Request.Query)
        {
            if (!known.Contains(name) || values.Count != 1)
            {
                Sentence expected = known.Length == 0 ? "no parameters" : (Sentence)$"{string.Join(", ", known)}";
                throw new Refusal(StatusCodes.Status400BadRequest, "strange-parameter",
                    known.Contains(name) ? "A parameter is there more than once." : "Unknown parameter.")
                    .Found($"{name}").Expecting(expected);
            }
        }
    }

    private static bool IsPlain(Type type) => (Nullable.GetUnderlyingType(type) ?? type) is { } t && (t == typeof(string) || t.IsPrimitive);

    private static void Headers(IHeaderDictionary headers)
    {
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers.XFrameOptions = "DENY";
        // What the API answers is data, never a page: nothing in it may run or load, wherever it is opened.
        headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'none'; sandbox";
        headers.CacheControl = "no-cache";
    }

    private static IEnumerable<string> Hosts(ServerOptions options)
    {
        string own = options.Address.ToString();
        IEnumerable<string> address = options.Address.Equals(IPAddress.Any) || options.Address.Equals(IPAddress.IPv6Any) ? []
            : [own, $"[{own}]"];
        return [.. address, .. options.Names, "localhost", "127.0.0.1", "[::1]"];
    }
}
