using System.Text.Json;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Valvewright.Records.Views;
using Valvewright.Store.Files;

namespace Valvewright.Server.Problems;

/// <summary>Whatever goes wrong leaves as a problem document; none says anything of the inside.</summary>
internal static class ProblemWriter
{
    public const string MediaType = "application/problem+json";

    /// <summary>What an exception becomes.</summary>
    public static Task Explain(HttpContext http)
    {
        Exception? exception = http.Features.Get<IExceptionHandlerFeature>()?.Error;
        return Write(http, Of(exception));
    }

    /// <summary>A bare status code, of routing for instance, gets its document too.</summary>
    public static Task Explain(StatusCodeContext context)
    {
        int status = context.HttpContext.Response.StatusCode;
        (string kind, Sentence detail) = status switch
        {
            404 => ("not-found", "There is nothing at this address."),
            405 => ("wrong-method", "This address does not take that method."),
            415 => ("wrong-type", "This address does not take that type of content."),
            429 => ("too-many-tries", "Too many tries. Wait a minute, then try again."),
            _ => ("refused", "The request is not done."),
        };
        return Write(context.HttpContext, new Refusal(status, kind, detail).Document());
    }

    public static ProblemDetails Of(Exception? exception) => exception switch
    {
        Refusal refusal => refusal.Document(),
        Work.RefusalException work => Of(work.Refusal).Document(),
        BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } =>
            new Refusal(413, "too-large", "What was sent is too large.").Document(),
        BadHttpRequestException bad => new Refusal(bad.StatusCode, "wrong-request", "The request cannot be understood.")
            .With("found", Shown.Of(bad.Message)).Document(),
        _ when DatabaseLoss.Caused(exception) => new Refusal(StatusCodes.Status503ServiceUnavailable, "store-away",
            "The database can't be reached. Send it again later: what was stored already is not stored twice.").Document(),
        _ => new Refusal(500, "defect", "This is a defect of the server, not of what was sent. Nothing was stored.").Document(),
    };

    private static Refusal Of(Work.Refusal refusal) => refusal switch
    {
        Work.Refusal.WeatherUnusable => Refusal.Of(refusal.Problems, refusal.What, refusal.Kind),
        Work.Refusal.WrongRequest => Refusal.Of(refusal.Problems, refusal.What, refusal.Kind),
        Work.Refusal.WeatherMissing missing =>
            new Refusal(StatusCodes.Status422UnprocessableEntity, refusal.Kind, refusal.What).Found($"{missing.Name}"),
        _ => new Refusal(StatusCodes.Status422UnprocessableEntity, refusal.Kind, refusal.What),
    };

    /// <summary>The same as a value that pages know.</summary>
    public static ProblemDocument ViewOf(Exception? exception) =>
        JsonSerializer.SerializeToElement(Of(exception), Options).Deserialize<ProblemDocument>(Json.Options)!;

    private static Task Write(HttpContext http, ProblemDetails document)
    {
        http.Response.StatusCode = document.Status ?? 500;
        return http.Response.WriteAsJsonAsync(document, Options, MediaType, http.RequestAborted);
    }

    /// <summary>As everything else is written; problem documents keep their own member names.</summary>
    private static JsonSerializerOptions Options { get; } = new(Json.Options)
        { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.Default };
}
