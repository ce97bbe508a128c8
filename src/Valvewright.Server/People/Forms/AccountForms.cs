using NodaTime.Text;
using Valvewright.Server.Problems;

namespace Valvewright.Server.People.Forms;

/// <summary>One's own account and tokens; for an owner also members and invitations.</summary>
internal static class AccountForms
{
    private const string Address = "/people/account";

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet(Address, (Delegate)Account).ExcludeFromDescription();
        Post(routes, "/people/sign-out", SignOut);
        Post(routes, "/people/sign-out-everywhere", SignOutEverywhere);
        Post(routes, "/people/password", Password).RequireRateLimiting(PeopleServices.TriesPolicy);
        Post(routes, "/people/organization", Switch);
        Post(routes, "/people/tokens", MakeToken);
        Post(routes, "/people/tokens/{token}/revoke", RevokeToken);
        Post(routes, "/people/invitations", Invite);
        Post(routes, "/people/invitations/{invitation}/revoke", Withdraw);
        Post(routes, "/people/members/{member}/role", SetRole);
        Post(routes, "/people/members/{member}/remove", Remove);
    }

    private static RouteHandlerBuilder Post(IEndpointRouteBuilder routes, string address, Delegate handler) =>
        routes.MapPost(address, handler).ExcludeFromDescription();

    private static Caller Who(HttpContext http) => http.Features.Get<Caller>()!;

    private static IResult Account(HttpContext http, Register register, string? language) => Page(http, register).Show();

    private static async Task<IResult> SignOut(HttpContext http, string? language)
    {
        await Sent(http);
        await SigningIn.Out(http);
        return Back(http, Rights.SignInAddress);
    }

    private static async Task<IResult> SignOutEverywhere(HttpContext http, SigningIn signing, string? language)
    {
        await Sent(http);
        await signing.OutEverywhere(Who(http));
        await SigningIn.Out(http);
        return Back(http, Rights.SignInAddress);
    }

    private static async Task<IResult> Password(HttpContext http, SigningIn signing, Register register, string? language)
    {
        Fields fields = await Sent(http);
        FormTexts texts = FormTexts.Of(http.Request);
        bool isDone = await signing.Change(Who(http), fields["now"], fields["next"]) is { Succeeded: true };
        return isDone ? Page(http, register, texts["password-changed"]).Show()
            : Page(http, register, trouble: texts["password-wrong"]).Show(StatusCodes.Status403Forbidden);
    }

    private static async Task<IResult> Switch(HttpContext http, SigningIn signing, string? language)
    {
        Fields fields = await Sent(http);
        return Guid.TryParse(fields["organization"], out Guid organization) && await signing.For(Who(http), organization)
            ? Back(http, Address) : Back(http, Rights.SignInAddress);
    }

    private static async Task<IResult> MakeToken(HttpContext http, Register register, string? language)
    {
        Fields fields = await Sent(http);
        FormTexts texts = FormTexts.Of(http.Request);
        string? secret = fields.Name("name") is { } name && fields.Role() is { } role && int.TryParse(fields["days"], out int days)
            ? register.MakeToken(Who(http), name, role, days) : null;
        return secret is null ? Page(http, register, trouble: texts["token-refused"]).Show(StatusCodes.Status400BadRequest)
            : Page(http, register, texts["token-made"], secret).Show();
    }

    private static async Task<IResult> RevokeToken(HttpContext http, Register register, string token, string? language)
    {
        await Sent(http);
        register.Revoke(Who(http), IdOf(token));
        return Back(http, Address);
    }

    private static async Task<IResult> Invite(HttpContext http, Register register, string? language)
    {
        Fields fields = await Sent(http);
        FormTexts texts = FormTexts.Of(http.Request);
        if (fields.Name("name") is not { } name || fields.Role() is not { } role)
        {
            return Page(http, register, trouble: texts["invite-refused"]).Show(StatusCodes.Status400BadRequest);
        }

        Caller caller = Who(http);
        string secret = register.Invite(caller.Organization, name, role, caller.Name);
        string link = $"{http.Request.Scheme}://{http.Request.Host}/people/invitation/{secret}";
        return Page(http, register, texts.Fill("invite-made", ("name", name)), link).Show();
    }

    private static async Task<IResult> Withdraw(HttpContext http, Register register, string invitation, string? language)
    {
        await Sent(http);
        register.Withdraw(Who(http).Organization, IdOf(invitation));
        return Back(http, Address);
    }

    private static async Task<IResult> SetRole(HttpContext http, Register register, string member, string? language)
    {
        Fields fields = await Sent(http);
        return fields.Role() is { } role ? Changed(http, register, member, role) : Back(http, Address);
    }

    private static async Task<IResult> Remove(HttpContext http, Register register, string member, string? language)
    {
        await Sent(http);
        return Changed(http, register, member, null);
    }

    private static IResult Changed(HttpContext http, Register register, string member, MemberRole? role) =>
        register.Set(Who(http).Organization, IdOf(member), role) ? Back(http, Address)
            : Page(http, register, trouble: FormTexts.Of(http.Request)["refused"]).Show(StatusCodes.Status409Conflict);

    private static Guid IdOf(string text) => Guid.TryParse(text, out Guid id) ? id : Guid.Empty;

    private static async Task<Fields> Sent(HttpContext http) => await Fields.Read(http)
        ?? throw new Refusal(StatusCodes.Status400BadRequest, "strange-form", "This form was not given out here, or is too old.");

    private static IResult Back(HttpContext http, string address)
    {
        http.Response.Headers.CacheControl = "no-store";
        http.Response.Headers.Location = $"{address}?language={FormTexts.Of(http.Request).Language}";
        return Results.StatusCode(StatusCodes.Status303SeeOther);
    }

    private static FormPage Page(HttpContext http, Register register, string? told = null, string? secret = null, string? trouble = null)
    {
        Caller caller = Who(http);
        FormTexts texts = FormTexts.Of(http.Request);
        FormPage page = new FormPage(http, texts).Title(caller.Name).Alert(trouble).Told(told, secret)
            .Paragraph(texts.Fill("member-of", ("organization", register.NameOf(caller.Organization)),
                ("role", texts[$"role.{caller.Role}"]), ("may", texts[$"may.{caller.Role}"])))
            .Link("/", texts["to-page"]);
        if (caller.Role == MemberRole.Owner)
        {
            Members(page, caller, texts, register);
        }

        Tokens(page, caller, texts, register);
        page.Heading(texts["change-password"]).Form("/people/password", texts["change-password"], form => form
            .Field("now", texts["password-now"], "password", "current-password")
            .Field("next", texts["password-next"], "password", "new-password")
            .Hint(texts.Fill("password-rule", ("signs", PeopleServices.LeastPasswordSigns))));
        foreach (Organization other in register.OrganizationsOf(caller.Person).Where(o => o.Id != caller.Organization))
        {
            page.Heading(texts["switch"]).Form(
                "/people/organization", $"{texts["switch-do"]}: {other.Name}", form => form.Hidden("organization", $"{other.Id}"));
        }

        return page.Heading(texts["sign-out"]).Hint(texts["sign-out-hint"]).Form("/people/sign-out", texts["sign-out-here"])
            .Form("/people/sign-out-everywhere", texts["sign-out-everywhere"]);
    }

    private static void Members(FormPage page, Caller caller, FormTexts texts, Register register)
    {
        page.Heading(texts["members"]).List(list =>
        {
            foreach ((Person person, _, MemberRole role) in register.Members(caller.Organization))
            {
                string name = person.UserName ?? "";
                list.Line(name, line => line
                    .Form($"/people/members/{person.Id}/role", texts["set"], form => form.Roles(
                        "", texts.Fill("role-of", ("name", name)), MemberRole.Owner, role, isSpoken: true))
                    .Form($"/people/members/{person.Id}/remove", texts["remove"], spoken: texts.Fill("remove-of", ("name", name))));
            }
        });
        page.Heading(texts["invitations"]).List(list =>
        {
            foreach (Invitation open in register.Invited(caller.Organization))
            {
                list.Line(texts.Fill("invite-line", ("name", open.Name), ("role", texts[$"role.{open.Role}"]), ("date", Date(
                    open.ExpiresAt))), line => line.Form($"/people/invitations/{open.Id}/revoke", texts["revoke"]));
            }
        }).Form("/people/invitations", texts["invite"], form => form.Field("name", texts["name"], "text", "off")
            .Roles("invite-role", texts["role"], MemberRole.Owner, MemberRole.Technician), isMain: true);
    }

    private static void Tokens(FormPage page, Caller caller, FormTexts texts, Register register)
    {
        page.Heading(texts["tokens"]).Hint(texts["tokens-about"]).List(list =>
        {
            foreach ((AccessToken token, string maker) in register.Tokens(caller))
            {
                list.Line(texts.Fill("token-line", ("name", token.Name), ("role", texts[$"role.{token.Role}"]), ("maker", maker),
                    ("date", Date(token.ExpiresAt))), line => line.Form($"/people/tokens/{token.Id}/revoke", texts["revoke"]));
            }
        }).Form("/people/tokens", texts["token-make"], form => form.Field("name", texts["token-name"], "text", "off")
            .Field("days", texts["token-days"], "number", "off", "90").Roles("token-role", texts["role"], caller.Role, MemberRole.Reader));
    }

    private static string Date(Instant at) => LocalDatePattern.Iso.Format(at.InUtc().Date);
}
