using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.RateLimiting;

namespace Valvewright.Server.People.Forms;

/// <summary>Signing in, and using a link that works once.</summary>
internal static class SignInForms
{
    private const string InvitationAddress = "/people/invitation/";

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet(Rights.SignInAddress, (Delegate)Ask).ExcludeFromDescription();
        routes.MapPost(Rights.SignInAddress, (Delegate)SignIn).ExcludeFromDescription()
            .RequireRateLimiting(PeopleServices.TriesPolicy);
        routes.MapGet(InvitationAddress + "{secret}", (Delegate)Invited).ExcludeFromDescription();
        routes.MapPost(InvitationAddress + "{secret}", (Delegate)Join).ExcludeFromDescription()
            .RequireRateLimiting(PeopleServices.TriesPolicy);
    }

    private static IResult Ask(HttpContext http, string? language, string? to) =>
        SignInPage(http, to, null, "", StatusCodes.Status200OK);

    private static async Task<IResult> SignIn(HttpContext http, SigningIn signing, string? language, string? to)
    {
        FormTexts texts = FormTexts.Of(http.Request);
        if (await Fields.Read(http) is not { } fields)
        {
            return SignInPage(http, to, texts["expired"], "", StatusCodes.Status400BadRequest);
        }

        return await signing.In(fields["name"].Trim(), fields["password"]) ? To(http, Own(to))
            : SignInPage(http, to, texts["wrong"], fields["name"], StatusCodes.Status403Forbidden);
    }

    private static IResult SignInPage(HttpContext http, string? to, string? trouble, string name, int status)
    {
        FormTexts texts = FormTexts.Of(http.Request);
        return new FormPage(http, texts).Title(texts["sign-in"]).Alert(trouble)
            .Form($"{Rights.SignInAddress}?to={Uri.EscapeDataString(Own(to))}", texts["sign-in"], form => form
                .Field("name", texts["name"], "text", "username", name)
                .Field("password", texts["password"], "password", "current-password"), isMain: true)
            .Hint(texts["device-keeps"]).Hint(texts["forgotten"]).Show(status);
    }

    private static async Task<IResult> Invited(HttpContext http, SigningIn signing, Register register, string secret, string? language) =>
        await signing.Invited(secret) is { } invitation ? InvitationPage(http, register, invitation, secret, null, invitation.Name, 200)
            : NoLink(http);

    private static async Task<IResult> Join(HttpContext http, SigningIn signing, Register register, string secret, string? language)
    {
        FormTexts texts = FormTexts.Of(http.Request);
        if (await signing.Invited(secret) is not { } invitation)
        {
            return NoLink(http);
        }

        Fields? fields = await Fields.Read(http);
        string? name = invitation.PersonId is not null ? invitation.Name : fields?.Name("name");
        if (fields is null || name is null)
        {
            return InvitationPage(
                http, register, invitation, secret, texts[fields is null ? "expired" : "cannot-join"], invitation.Name, 400);
        }

        IdentityResult? result = await signing.Accept(invitation, name, fields["password"]);
        return result is { Succeeded: true } ? To(http, "/")
            : InvitationPage(http, register, invitation, secret, texts[result is not null
                && result.Errors.All(e => e.Code.StartsWith("Password", StringComparison.Ordinal)) ? "password-weak" : "cannot-join"],
                name, StatusCodes.Status403Forbidden);
    }

    private static IResult InvitationPage(
        HttpContext http, Register register, Invitation invitation, string secret, string? trouble, string name, int status)
    {
        FormTexts texts = FormTexts.Of(http.Request);
        bool isRenewal = invitation.PersonId is not null;
        FormPage page = new FormPage(http, texts).Title(isRenewal ? texts.Fill("renew", ("name", invitation.Name))
            : texts.Fill("invited", ("organization", register.NameOf(invitation.OrganizationId)))).Alert(trouble);
        if (!isRenewal)
        {
            page.Paragraph(texts.Fill("invited-as", ("by", invitation.By), ("role", texts[$"role.{invitation.Role}"]),
                ("may", texts[$"may.{invitation.Role}"])));
        }

        return page.Form(InvitationAddress + secret, texts[isRenewal ? "renew-do" : "join"], form =>
        {
            if (!isRenewal)
            {
                form.Field("name", texts["name"], "text", "username", name).Hint(texts["name-hint"]);
            }

            form.Field("password", texts["password"], "password", "new-password")
                .Hint(texts.Fill("password-rule", ("signs", PeopleServices.LeastPasswordSigns)));
        }, isMain: true).Show(status);
    }

    /// <summary>Used, expired, withdrawn, never made: all look the same.</summary>
    private static IResult NoLink(HttpContext http)
    {
        FormTexts texts = FormTexts.Of(http.Request);
        return new FormPage(http, texts).Title(texts["sign-in"]).Alert(texts["no-link"]).Link(Rights.SignInAddress, texts["sign-in"])
            .Show(StatusCodes.Status404NotFound);
    }

    /// <summary>An address of this server to go on to; anything else leads to the page.</summary>
    private static string Own(string? to) => to is ['/', ..] && !to.StartsWith("//", StringComparison.Ordinal)
        && !to.Any(c => c == '\\' || char.IsControl(c) || c > '~') ? to : "/";

    private static IResult To(HttpContext http, string address)
    {
        http.Response.Headers.CacheControl = "no-store";
        http.Response.Headers.Location = address;
        return Results.StatusCode(StatusCodes.Status303SeeOther);
    }
}
