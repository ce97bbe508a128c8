using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Valvewright.Server.Hosting;

/// <summary>The API's description (OpenAPI), at <see cref="Address"/>.</summary>
internal static class Description
{
    public const string Address = "/api/description.json";

    public static void Of(OpenApiOptions options) => options.AddDocumentTransformer((document, _, _) =>
    {
        document.Info = new OpenApiInfo
        {
            Title = "Valvewright",
            Version = "1",
            Description = "Sites of small battery-powered irrigation controllers: surveys, plans, cards, readings, visits. Amounts are " +
                "SI. Problems are RFC 9457 documents. Ids are UUIDs of version 7, made by the caller.",
        };
        document.Servers = [];
        return Task.CompletedTask;
    });
}
