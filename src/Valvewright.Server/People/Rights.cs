using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Primitives;
using Valvewright.Records;
using Valvewright.Server.Pages;
using Valvewright.Server.Problems;
using Valvewright.Store;

namespace Valvewright.Server.People;

/// <summary>Lets each request through to what the one who asks may do, and to nothing else.</summary>
/// <param name="store">The sites.</param>
/// <param name="isSecure">Whether people sign in over HTTPS alone.</param>
internal sealed class Rights(SiteStore store, bool isSecure)
{
    /// <summary>Where people sign in.</summary>
    public const string SignInAddress = "/people/sign-in";

    private const string Site = "site";
    private const string By = "by";

    /// <summary>Passes on what is allowed. A site of another organization is passed on as one that there is not.</summary>
    public async Task Pass(HttpContext http, RequestDelegate next)
    {
        if (http.GetEndpoint() is not { } endpoint)
        {
            await Page(http, next);
            return;
        }

        if (!LeastRoles.TryFind(endpoint, http.Request.Method, out MemberRole? least))
        {
            // The web server's own answers, such as 405, tell nothing of any site; of the API they are for members all the same.
            least = endpoint is RouteEndpoint ? throw NotAllowed() : IsForm(http.Request) ? null : MemberRole.Reader;
        }

        if (isSecure && IsForm(http.Request) && !http.Request.IsHttps)
        {
            throw new Refusal(StatusCodes.Status403Forbidden, "not-over-https", "Sign in over HTTPS.");
        }

        if (least is not { } needed)
        {
            await next(http);
            return;
        }

        if (await Caller.Of(http) is not { } caller)
        {
            bool isForm = IsForm(http.Request);
            if (isForm && HttpMethods.IsGet(http.Request.Method))
            {
                ToSignIn(http);
                return;
            }

            throw new Refusal(StatusCodes.Status401Unauthorized, "not-signed-in", "Sign in first.")
                .Expecting("a person who has signed in, or a token that is valid");
        }

        if (caller.Role < needed || (caller.IsProgram && IsForm(http.Request)))
        {
            throw NotAllowed();
        }

        Narrow(http, caller);
        await next(http);
    }

    private static Refusal NotAllowed() =>
        new(StatusCodes.Status403Forbidden, "not-allowed", "Your role does not allow this. Nothing was stored.");

    private void Narrow(HttpContext http, Caller caller)
    {
        OwnSites own = new(http.RequestServices.GetRequiredService<PeopleContext>(), store, caller.Organization);
        http.Features.Set(caller);
        http.Features.Set(own);
        // Another organization's site, and all below it, is looked for under ids that no one has: the answer is that of a missing one,
        // byte for byte.
        // Where a site may be made, the address itself asks whether the id is free.
        if (http.Request.RouteValues[Site] is string text && Ids.TryRead(text, out Guid site) && !IsSitePut(http) && !own.Has(site))
        {
            foreach (string place in http.Request.RouteValues.Where(v => v.Value is string id && Ids.TryRead(id, out _))
                .Select(v => v.Key).ToArray())
            {
                http.Request.RouteValues[place] = Ids.New().ToString("D");
            }
        }

        // Who did it is who signed in, whatever the request says.
        Dictionary<string, StringValues> query = new(http.Request.Query, StringComparer.OrdinalIgnoreCase) { [By] = caller.Name };
        http.Request.Query = new QueryCollection(query);
    }

    private static bool IsSitePut(HttpContext http) => HttpMethods.IsPut(http.Request.Method)
        && http.GetEndpoint() is RouteEndpoint { RoutePattern.RawText: "/api/sites/{site}" };

    private static bool IsForm(HttpRequest request) => request.Path.StartsWithSegments("/people", StringComparison.OrdinalIgnoreCase);

    /// <summary>The page's files hold nothing of any site and are open; a person who opens the page is led to sign in first.</summary>
    private static async Task Page(HttpContext http, RequestDelegate next)
    {
        HttpRequest request = http.Request;
        if (HttpMethods.IsGet(request.Method) && PageFolder.IsRoute(request.Path.Value ?? "/")
            && request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal) && await Caller.Of(http) is null)
        {
            ToSignIn(http);
            return;
        }

        await next(http);
    }

    private static void ToSignIn(HttpContext http)
    {
        http.Response.Headers.CacheControl = "no-store";
        http.Response.StatusCode = StatusCodes.Status303SeeOther;
        http.Response.Headers.Location = $"{SignInAddress}?to={Uri.EscapeDataString(http.Request.Path + http.Request.QueryString)}";
    }
}
