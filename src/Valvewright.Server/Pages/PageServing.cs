using Microsoft.Net.Http.Headers;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Pages;

/// <summary>Serves the page at every address that is not the API's.</summary>
/// <param name="page">The page; null where only the API is served.</param>
internal sealed class PageServing(PageFolder? page)
{
    private const string NoPage = "Valvewright serves its API here, without the page: the API is described at /api/description.json.\n";

    /// <summary>Answers what is asked of the page, and leaves the rest.</summary>
    public Task Pass(HttpContext http, RequestDelegate next)
    {
        string path = http.Request.Path.Value ?? "/";
        bool isRead = HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method);
        if (http.GetEndpoint() is not null || (page is null && path != "/"))
        {
            return next(http);
        }

        if (page is null)
        {
            return isRead ? Plain(http) : throw WrongMethod();
        }

        return page.At(path) is not { } file ? next(http) : isRead ? Send(http, file) : throw WrongMethod();
    }

    private static Refusal WrongMethod() =>
        new(StatusCodes.Status405MethodNotAllowed, "wrong-method", "This address does not take that method.");

    private static Task Plain(HttpContext http)
    {
        http.Response.ContentType = "text/plain; charset=utf-8";
        return HttpMethods.IsHead(http.Request.Method) ? Task.CompletedTask : http.Response.WriteAsync(NoPage, http.RequestAborted);
    }

    private Task Send(HttpContext http, PageFile file)
    {
        PageForm form = Wanted(http.Request, file);
        IHeaderDictionary headers = http.Response.Headers;
        if (file.IsOwnWorld)
        {
            headers.ContentSecurityPolicy = page!.Policy;
        }

        headers.CacheControl = file.Caching;
        headers.ETag = form.Tag;
        headers.Vary = HeaderNames.AcceptEncoding;
        if (http.Request.Headers.IfNoneMatch.SelectMany(t => (t ?? "").Split(',')).Any(t => t.Trim() == form.Tag))
        {
            http.Response.StatusCode = StatusCodes.Status304NotModified;
            return Task.CompletedTask;
        }

        headers.ContentType = file.Type;
        headers.ContentLength = form.Bytes.Length;
        if (form.Encoding.Length > 0)
        {
            headers.ContentEncoding = form.Encoding;
        }

        return HttpMethods.IsHead(http.Request.Method) ? Task.CompletedTask : http.Response.Body
            .WriteAsync(form.Bytes, http.RequestAborted).AsTask();
    }

    /// <summary>The first form that the browser takes (RFC 9110, 12.5.3).</summary>
    private static PageForm Wanted(HttpRequest request, PageFile file)
    {
        IList<StringWithQualityHeaderValue> taken = request.GetTypedHeaders().AcceptEncoding;
        return file.Forms.FirstOrDefault(f => f.Encoding.Length > 0 && Takes(taken, f.Encoding)) ?? file.Forms[^1];
    }

    private static bool Takes(IList<StringWithQualityHeaderValue> taken, string encoding)
    {
        StringWithQualityHeaderValue? named = taken.FirstOrDefault(t => t.Value.Equals(encoding, StringComparison.OrdinalIgnoreCase))
            ?? taken.FirstOrDefault(t => t.Value == "*");
        return named is not null && named.Quality is null or > 0;
    }
}
