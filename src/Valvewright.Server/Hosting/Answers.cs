using System.Text;
using Microsoft.AspNetCore.Mvc;
using Valvewright.Server.Requests;

namespace Valvewright.Server.Hosting;

/// <summary>A group of addresses.</summary>
internal interface IEndpoints
{
    /// <summary>Adds them.</summary>
    void Map(IEndpointRouteBuilder routes);
}

/// <summary>How answers are written, and described.</summary>
internal static class Answers
{
    /// <summary>However small the limit, so much is read of what is too large: a connection that is cut while its sender still sends tells
    /// them nothing.</summary>
    private const int ReadToTheEndBytes = 1_000_000;

    public static IResult Json<T>(T value, int status = StatusCodes.Status200OK) =>
        Results.Json(value, Engine.Values.Json.Options, statusCode: status);

    /// <summary>JSON on one line: for large answers.</summary>
    public static IResult CompactJson<T>(T value) => Results.Json(value, Engine.Values.Json.Compact);

    public static IResult Text(string text, string type) => Results.Content(text, type, Encoding.UTF8);

    /// <summary>Bytes to be saved as a file, not shown as a page.</summary>
    public static IResult Bytes(byte[] bytes, string type, string fileName) => Results.File(bytes, type, fileName);

    /// <summary>An answer that need not be sent again while the version stays.</summary>
    public static IResult Tagged(HttpContext http, long version, Func<IResult> answer) => Tagged(http, Given.Tag(version), answer);

    /// <summary>An answer that need not be sent again while its tag stays.</summary>
    public static IResult Tagged(HttpContext http, string tag, Func<IResult> answer)
    {
        http.Response.Headers.ETag = tag;
        return http.Request.Headers.IfNoneMatch.Contains(tag) ? Results.StatusCode(StatusCodes.Status304NotModified) : answer();
    }

    /// <summary>What an address takes. The limit stands with the address, so that even a request refused at sight is read to its end and
    /// its sender hears why.</summary>
    public static RouteHandlerBuilder Takes<T>(this RouteHandlerBuilder route, int mostBytes, params string[] types)
        where T : notnull => route.Accepts<T>(types[0], types[1..]).WithMetadata(
            new RequestSizeLimitAttribute(Math.Max(mostBytes, ReadToTheEndBytes) + 1L));

    public static RouteHandlerBuilder Gives<T>(this RouteHandlerBuilder route, string summary) => Described(route.Produces<T>(), summary);

    public static RouteHandlerBuilder GivesText(this RouteHandlerBuilder route, string summary, string type) =>
        Described(route.Produces<string>(200, type), summary);

    public static RouteHandlerBuilder GivesNothing(this RouteHandlerBuilder route, string summary) =>
        Described(route.Produces(StatusCodes.Status204NoContent), summary);

    private static RouteHandlerBuilder Described(RouteHandlerBuilder route, string summary) => route.WithSummary(summary)
        .ProducesProblem(StatusCodes.Status400BadRequest).ProducesProblem(StatusCodes.Status404NotFound);
}
