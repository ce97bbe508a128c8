using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.DependencyInjection;

namespace Valvewright.Server.People.Forms;

/// <summary>A page of forms as HTML, without scripts. What is put in as text is encoded.</summary>
internal sealed class FormPage(HttpContext http, FormTexts texts)
{
    private static readonly string Style = ReadStyle();
    private static readonly string Policy = "default-src 'none'; font-src 'self'; form-action 'self'; frame-ancestors 'none'; "
        + $"base-uri 'none'; style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Style)))}'";

    private readonly StringBuilder body = new();
    private readonly string token = http.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(http).RequestToken!;
    private string title = "";

    public FormPage Title(string text)
    {
        title = text;
        return Raw($"<h1>{In(text)}</h1>");
    }

    public FormPage Heading(string text) => Raw($"<h2>{In(text)}</h2>");

    public FormPage Paragraph(string text) => Raw($"<p>{In(text)}</p>");

    public FormPage Hint(string text) => Raw($"<p class=\"hint\">{In(text)}</p>");

    public FormPage Alert(string? text) => text is null ? this : Raw($"<p class=\"wrong\" role=\"alert\">{In(text)}</p>");

    /// <summary>What was done; a secret with it can be copied.</summary>
    public FormPage Told(string? text, string? secret = null) => text is null ? this
        : Raw($"<div class=\"told\" role=\"status\">{In(text)}{(secret is null ? "" : $"<br><code>{In(secret)}</code>")}</div>");

    public FormPage Link(string address, string text) => Raw($"<p><a href=\"{In(address)}\">{In(text)}</a></p>");

    public FormPage Line(string text, Action<FormPage> with)
    {
        Raw($"<li>{In(text)}");
        with(this);
        return Raw("</li>");
    }

    public FormPage List(Action<FormPage> lines)
    {
        Raw("<ul>");
        lines(this);
        return Raw("</ul>");
    }

    /// <summary>A form that posts to an address of this server.</summary>
    public FormPage Form(string address, string act, Action<FormPage>? fields = null, bool isMain = false, string? spoken = null)
    {
        string to = $"{address}{(address.Contains('?', StringComparison.Ordinal) ? '&' : '?')}language={texts.Language}";
        Raw($"<form method=\"post\" action=\"{In(to)}\"><input type=\"hidden\" name=\"form\" value=\"{In(token)}\">");
        fields?.Invoke(this);
        string label = spoken is null ? "" : $" aria-label=\"{In(spoken)}\"";
        return Raw($"<button{(isMain ? " class=\"act\"" : "")}{label}>{In(act)}</button></form>");
    }

    /// <summary>A field with its label; the browser fills it in by what it is for.</summary>
    public FormPage Field(string name, string label, string type, string fill, string value = "") => Raw(
        $"<label for=\"{name}\">{In(label)}</label><input id=\"{name}\" name=\"{name}\" type=\"{type}\" autocomplete=\"{fill}\" required"
        + $" maxlength=\"{Fields.Longest}\""
        + $"{(type == "number" ? $" min=\"1\" max=\"{Register.MostTokenDays}\"" : "")} value=\"{In(value)}\">");

    /// <summary>A choice of roles up to one.</summary>
    public FormPage Roles(string id, string label, MemberRole most, MemberRole chosen, bool isSpoken = false)
    {
        Raw(isSpoken ? $"<select name=\"role\" aria-label=\"{In(label)}\">"
            : $"<label for=\"{id}\">{In(label)}</label><select id=\"{id}\" name=\"role\">");
        foreach (MemberRole role in Enum.GetValues<MemberRole>().Where(r => r <= most))
        {
            Raw($"<option value=\"{role}\"{(role == chosen ? " selected" : "")}>{In(texts[$"role.{role}"])}</option>");
        }

        return Raw("</select>");
    }

    public FormPage Hidden(string name, string value) => Raw($"<input type=\"hidden\" name=\"{name}\" value=\"{In(value)}\">");

    /// <summary>The page as an answer.</summary>
    public IResult Show(int status = StatusCodes.Status200OK)
    {
        IHeaderDictionary headers = http.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.CacheControl = "no-store";
        // With no referrer at all, browsers send a form of this page as if it came from nowhere.
        headers["Referrer-Policy"] = "same-origin";
        string here = In($"{http.Request.Path}?language={texts.Other}{Kept(http.Request)}");
        return Results.Content("<!DOCTYPE html>"
            + $"<html lang=\"{texts.Language}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">"
            + $"<title>{In(title)} - Valvewright</title><style>{Style}</style></head><body><header><b>Valvewright</b>"
            + $"<a href=\"{here}\" lang=\"{texts.Other}\">{In(texts["other-language"])}</a></header><main>{body}</main></body></html>",
            "text/html; charset=utf-8", Encoding.UTF8, status);
    }

    private static string Kept(HttpRequest request) => request.Query["to"].ToString() is { Length: > 0 } to
        ? $"&to={Uri.EscapeDataString(to)}" : "";

    private FormPage Raw(string html)
    {
        body.Append(html);
        return this;
    }

    private static string In(string text) => HtmlEncoder.Default.Encode(text);

    private static string ReadStyle()
    {
        using StreamReader reader = new(typeof(FormPage).Assembly.GetManifestResourceStream("Valvewright.Server.People.form.css")!);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}
