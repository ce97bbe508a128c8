using System.Net;
using NodaTime;
using Valvewright.Server.People;

namespace Valvewright.Server.Tests.People;

/// <summary>Signing in and out, invitations and tokens, and the usual attacks on them.</summary>
public sealed partial class SignInTests
{
    [Fact]
    public async Task An_invitation_works_once_and_the_password_from_then_on()
    {
        await using Office office = await Office.Open();
        string secret = office.Invite("Parks", "Ana Ruiz", MemberRole.Owner);
        using Office.Browser ana = office.Stranger(), other = office.Stranger();
        Assert.Equal(401, await ana.Status("/api/sites"));
        using HttpResponseMessage weak = await ana.Join(secret, "Ana Ruiz", "short");
        Assert.Equal(HttpStatusCode.Forbidden, weak.StatusCode);
        Assert.Contains("too short", await weak.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, (await ana.Join(secret, "Ana Ruiz", Office.Password)).StatusCode);
        Assert.Equal(200, await ana.Status("/api/sites"));

        // Used, and never made: the same page but for the link to the other language.
        using HttpResponseMessage again = await other.Client.GetAsync($"/people/invitation/{secret}");
        using HttpResponseMessage never = await other.Client.GetAsync($"/people/invitation/{Secret.Make()}");
        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.NotFound), (again.StatusCode, never.StatusCode));
        Assert.Contains("can&#x27;t be used", await again.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await other.Post($"/people/invitation/{secret}",
            ("name", "Eve"), ("password", Office.Password))).StatusCode);

        using HttpResponseMessage signedIn = await other.SignIn("ana ruiz", Office.Password, "/sites/1?x=2");
        Assert.Equal((HttpStatusCode.SeeOther, "/sites/1?x=2"), (signedIn.StatusCode, signedIn.Headers.Location!.OriginalString));
        Assert.Equal(200, await other.Status("/api/sites"));
        Assert.DoesNotContain(secret, File.ReadAllText(office.Store + ".people"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_who_use_an_invitation_at_once_do_not_both_get_in()
    {
        await using Office office = await Office.Open();
        string secret = office.Invite("Parks", "Ana", MemberRole.Owner);
        using Office.Browser one = office.Stranger(), two = office.Stranger();
        HttpResponseMessage[] joined = await Task.WhenAll(
            one.Join(secret, "Ana", Office.Password), two.Join(secret, "Eve", Office.Password));
        Assert.Single(joined, j => j.StatusCode == HttpStatusCode.SeeOther);
        Assert.Single(office.Register(r => r.Members(null)));
    }

    [Fact]
    public async Task An_invitation_expires_and_can_be_taken_back()
    {
        await using Office office = await Office.Open();
        using Office.Browser owner = await office.Member("Parks", "Ana", MemberRole.Owner), guest = office.Stranger();
        string late = office.Invite("Parks", "Ben", MemberRole.Reader);
        office.Clock.Advance(Register.LinkLasts - Duration.FromSeconds(1));
        Assert.Equal(200, await guest.Status($"/people/invitation/{late}"));
        office.Clock.AdvanceSeconds(1);
        Assert.Equal(404, await guest.Status($"/people/invitation/{late}"));

        string open = office.Invite("Parks", "Ben", MemberRole.Reader);
        Guid id = office.Register(r => r.Invited(r.Organization("Parks", false)!.Id)).Single().Id;
        Assert.Equal(HttpStatusCode.SeeOther, (await owner.Send("/people/account", $"/people/invitations/{id}/revoke")).StatusCode);
        Assert.Equal(404, await guest.Status($"/people/invitation/{open}"));
    }

    [Fact]
    public async Task The_name_of_an_account_can_be_taken_by_no_one_else()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), eve = office.Stranger(),
            again = office.Stranger();
        string secret = office.Invite("Contractor", "Eve", MemberRole.Owner);
        Assert.Equal(HttpStatusCode.Forbidden, (await eve.Join(secret, "Ana", "another long password")).StatusCode);
        Assert.Equal(401, await eve.Status("/api/sites"));
        // Ana herself can join a second organization, and act for either.
        Assert.Equal(HttpStatusCode.SeeOther, (await again.Join(secret, "Ana", Office.Password)).StatusCode);
        string parks = office.Register(r => r.Organization("Parks", false)!.Id).ToString();
        Assert.Contains("Contractor, owner", await again.Client.GetStringAsync("/people/account"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther,
            (await again.Send("/people/account", "/people/organization", ("organization", parks))).StatusCode);
        Assert.Contains("Parks, owner", await again.Client.GetStringAsync("/people/account"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Signing_out_everywhere_and_another_password_end_every_sign_in_at_once()
    {
        await using Office office = await Office.Open();
        using Office.Browser phone = await office.Member("Parks", "Ana", MemberRole.Owner), desk = office.Stranger(),
            third = office.Stranger();
        await desk.SignIn("Ana", Office.Password);
        Assert.Equal((200, 200), (await phone.Status("/api/sites"), await desk.Status("/api/sites")));
        await phone.Send("/people/account", "/people/sign-out-everywhere");
        Assert.Equal((401, 401), (await phone.Status("/api/sites"), await desk.Status("/api/sites")));

        await desk.SignIn("Ana", Office.Password);
        await third.SignIn("Ana", Office.Password);
        const string next = "another long password";
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.Send("/people/account", "/people/password", ("now", "wrong password it is"),
            ("next", next))).StatusCode);
        Assert.Equal(HttpStatusCode.OK,
            (await desk.Send("/people/account", "/people/password", ("now", Office.Password), ("next", next))).StatusCode);
        Assert.Equal((200, 401), (await desk.Status("/api/sites"), await third.Status("/api/sites")));
        Assert.Equal(HttpStatusCode.Forbidden, (await third.SignIn("Ana", Office.Password)).StatusCode);
        Assert.Equal(HttpStatusCode.SeeOther, (await third.SignIn("Ana", next)).StatusCode);

        // Signing out here ends only this one.
        await third.Send("/people/account", "/people/sign-out");
        Assert.Equal((200, 401), (await desk.Status("/api/sites"), await third.Status("/api/sites")));
    }

    [Fact]
    public async Task A_restart_signs_no_one_out_and_only_the_server_reads_its_keys()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner);
        await office.Restart();
        using Office.Browser after = office.Stranger();
        after.Cookies.Add(office.Address, new Cookie("valvewright", ana.Cookies.GetAllCookies()["valvewright"]!.Value));
        Assert.Equal(200, await after.Status("/api/sites"));
        if (!OperatingSystem.IsWindows())
        {
            const UnixFileMode others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute
                | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;
            string[] kept = [office.Store + ".people", office.Store + ".keys", .. Directory.GetFiles(office.Store + ".keys")];
            Assert.True(kept.Length >= 3);
            foreach (string one in kept)
            {
                Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(one) & others);
            }
        }
    }

    [Fact]
    public async Task A_token_does_what_its_role_and_its_makers_allow_until_it_is_revoked()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), ben = await office.Member("Parks", "Ben",
            MemberRole.Technician);
        Assert.Equal(HttpStatusCode.BadRequest, (await ben.Send("/people/account", "/people/tokens",
            ("name", "weather"), ("days", "30"), ("role", "Planner"))).StatusCode);
        using HttpResponseMessage made = await ben.Send("/people/account", "/people/tokens",
            ("name", "weather"), ("days", "30"), ("role", "Technician"));
        string token = System.Text.RegularExpressions.Regex.Match(await made.Content.ReadAsStringAsync(), "<code>([^<]+)</code>")
            .Groups[1].Value;
        Assert.DoesNotContain(token, await ben.Client.GetStringAsync("/people/account"), StringComparison.Ordinal);
        Assert.Equal((200, 401, 401), (await Bearer(office, token), await Bearer(office, token + "x"), await Bearer(office, "")));
        Assert.Equal((403, 403), (await Bearer(office, token, "/people/account"), await Bearer(office, token, "/PEOPLE/Account")));

        // The maker's role counts: taken away, it is taken away from the token.
        Guid site = Records.Ids.New(), parks = office.Register(r => r.Organization("Parks", false)!.Id);
        Guid person = office.Register(r => r.Members(parks)).Single(m => m.Person.UserName == "Ben").Person.Id;
        Assert.Equal(415, await Bearer(office, token, $"/api/sites/{site}/visits/{site}", "PUT"));
        office.Register(r => r.Set(parks, person, MemberRole.Reader));
        Assert.Equal(403, await Bearer(office, token, $"/api/sites/{site}/visits/{site}", "PUT"));
        AccessToken kept = office.Register(r => r.Tokens(new Caller(person, "Ben", parks, MemberRole.Reader, false))).Single().Token;
        await ana.Send("/people/account", $"/people/tokens/{kept.Id}/revoke");
        Assert.Equal(401, await Bearer(office, token));

        string other = office.Register(r => r.MakeToken(new Caller(person, "Ben", parks, MemberRole.Reader, false), "x",
            MemberRole.Reader, 1))!;
        Assert.Equal(200, await Bearer(office, other));
        office.Clock.Advance(Duration.FromDays(1));
        Assert.Equal(401, await Bearer(office, other));
    }

    [Fact]
    public async Task A_link_for_a_new_password_ends_what_was_before()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), after = office.Stranger();
        (Person person, Organization parks, MemberRole role) = office.Register(r => r.Members(null)).Single();
        string secret = office.Register(r => r.Invite(parks.Id, "Ana", role, "Test", person.Id));
        const string next = "quite another password";
        Assert.Equal(HttpStatusCode.SeeOther, (await after.Join(secret, "Eve", next)).StatusCode);
        Assert.Equal((401, 200), (await ana.Status("/api/sites"), await after.Status("/api/sites")));
        Assert.Equal(HttpStatusCode.SeeOther, (await ana.SignIn("Ana", next)).StatusCode);
        Assert.Single(office.Register(r => r.Members(null)));
    }

    /// <summary>A browser is led to sign in and comes back; a program is told in a problem document, which the page keeps its records
    /// by.</summary>
    [Fact]
    public async Task Who_has_not_signed_in_is_led_to_it()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), stranger = office.Stranger();
        foreach (Office.Browser browser in new[] { stranger, ana })
        {
            browser.Client.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        }

        foreach ((string asked, string led) in new[] { ("/", "%2F"), ("/sites/1/at?controller=Gate",
            "%2Fsites%2F1%2Fat%3Fcontroller%3DGate"),
            ("/people/account", "%2Fpeople%2Faccount") })
        {
            using HttpResponseMessage answer = await stranger.Client.GetAsync(asked);
            Assert.Equal((HttpStatusCode.SeeOther, $"/people/sign-in?to={led}"),
                (answer.StatusCode, answer.Headers.Location!.OriginalString));
        }

        Assert.Equal((200, 200), (await ana.Status("/"), await ana.Status("/people/account")));
        using HttpResponseMessage refused = await stranger.Client.PutAsync($"/api/sites/{Records.Ids.New()}", Running.AsJson("{}"));
        Assert.Equal((HttpStatusCode.Unauthorized, "application/problem+json"),
            (refused.StatusCode, refused.Content.Headers.ContentType!.MediaType));
        Assert.Contains("/problems/not-signed-in", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("es", "Iniciar sesión")]
    [InlineData("en", "Sign in")]
    [InlineData("de", "Sign in")]
    public async Task The_pages_speak_both_languages(string accepted, string said)
    {
        await using Office office = await Office.Open();
        using Office.Browser browser = office.Stranger();
        browser.Client.DefaultRequestHeaders.AcceptLanguage.ParseAdd(accepted);
        string html = WebUtility.HtmlDecode(await browser.Client.GetStringAsync("/people/sign-in"));
        Assert.Contains($"<h1>{said}</h1>", html, StringComparison.Ordinal);
        Assert.Contains("Iniciar sesión", WebUtility.HtmlDecode(await browser.Client.GetStringAsync("/people/sign-in?language=es")),
            StringComparison.Ordinal);
    }

    private static async Task<int> Bearer(Office office, string token, string address = "/api/sites", string method = "GET")
    {
        using Office.Browser program = office.Stranger();
        using HttpRequestMessage request = new(new HttpMethod(method), address);
        request.Headers.TryAddWithoutValidation("Authorization", $"Bearer {token}");
        return (int)(await program.Client.SendAsync(request)).StatusCode;
    }
}
