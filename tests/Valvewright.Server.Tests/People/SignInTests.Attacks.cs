using System.Net;
using NodaTime;
using Valvewright.Server.People;

namespace Valvewright.Server.Tests.People;

/// <summary>The usual attacks: fixation, guessing, forms and names of elsewhere.</summary>
public sealed partial class SignInTests
{
    [Fact]
    public async Task A_sign_in_is_a_new_one_whatever_the_browser_brings()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), ben = await office.Member("Parks", "Ben",
            MemberRole.Reader);
        Cookie planted = ben.Cookies.GetAllCookies()["valvewright"]!;
        using Office.Browser victim = office.Stranger();
        victim.Cookies.Add(office.Address, new Cookie("valvewright", planted.Value));
        Assert.Equal(HttpStatusCode.SeeOther, (await victim.SignIn("Ana", Office.Password)).StatusCode);
        string own = victim.Cookies.GetAllCookies()["valvewright"]!.Value;
        Assert.NotEqual(planted.Value, own);
        Assert.Contains("owner", await victim.Client.GetStringAsync("/people/account"), StringComparison.Ordinal);
        // Whoever planted the cookie is still Ben, not Ana.
        Assert.Contains("Parks, reader", await ben.Client.GetStringAsync("/people/account"), StringComparison.Ordinal);
        string forged = own[..^4] + (own[^4] == 'A' ? 'B' : 'A') + own[^3..];
        using Office.Browser forger = office.Stranger();
        forger.Cookies.Add(office.Address, new Cookie("valvewright", forged));
        Assert.Equal(401, await forger.Status("/api/sites"));
    }

    [Fact]
    public async Task Guessing_locks_the_account_for_five_minutes_and_does_not_tell()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), guesser = office.Stranger();
        string[] told = new string[7];
        for (int i = 0; i < 5; i++)
        {
            using HttpResponseMessage wrong = await guesser.SignIn("Ana", $"not the password {i}");
            Assert.Equal(HttpStatusCode.Forbidden, wrong.StatusCode);
            told[i] = Plain(await wrong.Content.ReadAsStringAsync());
        }

        told[5] = Plain(await (await guesser.SignIn("Ana", Office.Password)).Content.ReadAsStringAsync());
        told[6] = Plain(await (await guesser.SignIn("Eve", Office.Password)).Content.ReadAsStringAsync());
        Assert.Single(told.Select(t => t.Replace("Eve", "Ana", StringComparison.Ordinal)).Distinct());
        Assert.Equal(200, await ana.Status("/api/sites"));
        office.Clock.Advance(Duration.FromMinutes(5) + Duration.FromSeconds(1));
        Assert.Equal(HttpStatusCode.SeeOther, (await guesser.SignIn("Ana", Office.Password)).StatusCode);
    }

    [Fact]
    public async Task One_address_has_so_many_tries_within_a_minute()
    {
        await using Office office = await Office.Open(tries: 3);
        using Office.Browser guesser = office.Stranger();
        for (int i = 0; i < 3; i++)
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await guesser.SignIn($"Name {i}", "not the password")).StatusCode);
        }

        using HttpResponseMessage more = await guesser.SignIn("Name", "not the password");
        Assert.Equal((HttpStatusCode.TooManyRequests, TimeSpan.FromMinutes(1)), (more.StatusCode, more.Headers.RetryAfter!.Delta));
        Assert.Contains("too-many-tries", await more.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await guesser.Post($"/people/invitation/{Secret.Make()}")).StatusCode);
        Assert.Equal(200, await guesser.Status("/people/sign-in"));
    }

    [Fact]
    public async Task Forms_of_elsewhere_and_strange_hosts_are_refused()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), eve = office.Stranger();
        // Without the token of the form, with that of another browser, from another origin, under another name.
        Assert.Equal(HttpStatusCode.BadRequest, (await ana.Post("/people/sign-out-everywhere")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await ana.Post("/people/invitations", ("name", "Eve"), ("role", "Owner"),
            ("form", "CfDJ8AAAA"))).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await eve.Post("/people/sign-in", ("name", "Ana"),
            ("password", Office.Password))).StatusCode);
        foreach ((string name, string value, int status) in new[] { ("Origin", "https://evil.example", 403), ("Origin", "null", 403),
            ("Sec-Fetch-Site", "cross-site", 403), ("Host", "evil.example", 421) })
        {
            using HttpRequestMessage request = new(HttpMethod.Post, "/people/sign-out-everywhere");
            request.Headers.TryAddWithoutValidation(name, value);
            Assert.Equal(status, (int)(await ana.Client.SendAsync(request)).StatusCode);
        }

        Assert.Equal(200, await ana.Status("/api/sites"));
        foreach (string elsewhere in new[] { "//evil.example", "https://evil.example", "/\\evil.example", "javascript:alert(1)" })
        {
            Assert.Equal("/", (await eve.SignIn("Ana", Office.Password, elsewhere)).Headers.Location!.OriginalString);
        }
    }

    [Fact]
    public async Task Over_https_cookies_go_nowhere_else()
    {
        await using Office office = await Office.Open(name: "sites.example.org");
        using Office.Browser browser = office.Stranger();
        Assert.Equal(403, await browser.Status("/people/sign-in"));
        using HttpRequestMessage request = new(HttpMethod.Get, "/people/sign-in");
        request.Headers.Add("X-Forwarded-Proto", "https");
        using HttpResponseMessage page = await browser.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        string cookie = page.Headers.GetValues("Set-Cookie").Single();
        Assert.StartsWith("__Host-valvewright-form=", cookie, StringComparison.Ordinal);
        Assert.All(new[] { "secure", "httponly", "samesite=strict", "path=/" }, part =>
            Assert.Contains(part, cookie, StringComparison.OrdinalIgnoreCase));
    }

    private static string Plain(string html) => System.Text.RegularExpressions.Regex.Replace(html, "name=\"form\" value=\"[^\"]+\"", "");
}
