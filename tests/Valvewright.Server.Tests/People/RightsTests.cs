using System.Net.Http.Headers;
using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Server.People;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests.People;

/// <summary>Every address x every role x one's own and another's organization.</summary>
public sealed partial class RightsTests
{
    private const string Foreign = "Contractor";
    private static readonly string[] Children = ["{plan}", "{visit}", "{photo}", "{reading}", "{trace}"];

    private static readonly MemberRole?[] Everyone =
        [null, MemberRole.Reader, MemberRole.Technician, MemberRole.Planner, MemberRole.Owner];

    [Fact]
    public async Task Every_address_has_a_least_role_and_every_least_role_an_address()
    {
        await using Office office = await Office.Open();
        using Office.Browser owner = await office.Member("Parks", "Ana", MemberRole.Owner);
        string[] described = [.. (await Operations(owner)).Select(o => $"{o.Method} {o.Path}")];
        Assert.True(described.Length > 40);
        Assert.Empty(described.Except(LeastRoles.All.Keys));
        // Forms, health and the description itself are not in the description.
        Assert.Empty(LeastRoles.All.Keys.Where(k => !k.Contains(" /people/", StringComparison.Ordinal)).Except(described)
            .Except(["GET /api/description.json", "GET /health/live", "GET /health/ready"]));
        foreach (string form in LeastRoles.All.Keys.Where(k => k.Contains(" /people/", StringComparison.Ordinal)))
        {
            string[] parts = form.Split(' ');
            using HttpRequestMessage request = new(new HttpMethod(parts[0]), Address(parts[1], p => Ids.New().ToString()));
            HttpResponseMessage answer = await owner.Client.SendAsync(request);
            string text = await answer.Content.ReadAsStringAsync();
            Assert.False(text.Contains("There is nothing at this address", StringComparison.Ordinal), form);
        }
    }

    [Fact]
    public async Task Each_role_may_do_what_the_table_says_and_nothing_of_another_organization()
    {
        await using Office office = await Office.Open();
        Dictionary<MemberRole, Office.Browser> members = [];
        foreach (MemberRole role in Enum.GetValues<MemberRole>())
        {
            members.Add(role, await office.Member("Parks", $"{role}", role));
        }

        using Office.Browser stranger = office.Stranger(), other = await office.Member(Foreign, "Other", MemberRole.Owner);
        Furnished own = await Furnish(members[MemberRole.Owner].Client, "Heron Bank"), theirs = await Furnish(other.Client, "Otter Wharf");
        int allowed = 0, refused = 0, hidden = 0;
        foreach (Operation operation in await Operations(members[MemberRole.Owner]))
        {
            MemberRole? least = LeastRoles.All[$"{operation.Method} {operation.Path}"];
            foreach (MemberRole? role in Everyone)
            {
                HttpClient client = role is { } r ? members[r].Client : stranger.Client;
                string what = $"{operation.Method} {operation.Path} as {role}";
                Answer mine = await Ask(client, operation, p => own[p]);
                if (least is { } needed && (role is null || role < needed))
                {
                    Assert.True(mine.Status == (role is null ? 401 : 403), $"{what}: {mine.Status}");
                    refused++;
                }
                else if (least is not null)
                {
                    // What is there is found; what is not sent whole is refused for that and not for who asks.
                    Assert.True(mine.Status is not (401 or 403) && (operation.Method != "GET" || mine.Status is 200
                        || mine.Kind is "no-code"), $"{what}: {mine.Status} {mine.Text}");
                    allowed++;
                }

                if (operation.Path.Contains("{site}", StringComparison.Ordinal)
                    || operation.Path.Contains("{job}", StringComparison.Ordinal))
                {
                    hidden += await Hidden(client, operation, own, theirs, what);
                }
            }
        }

        Assert.True(allowed > 100 && refused > 60 && hidden > 200, $"{allowed} allowed, {refused} refused, {hidden} hidden");
        foreach (Office.Browser member in members.Values)
        {
            member.Dispose();
        }
    }

    /// <summary>Sends valid records under another's site and ids; the other's site is as it was.</summary>
    [Fact]
    public async Task What_is_whole_and_allowed_is_not_written_into_another_organization()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner),
            other = await office.Member(Foreign, "Other", MemberRole.Owner);
        Furnished own = await Furnish(ana.Client, "Heron Bank"), theirs = await Furnish(other.Client, "Otter Wharf");
        byte[] before = await other.Client.GetByteArrayAsync($"/api/sites/{theirs["{site}"]}/archive.zip");
        foreach ((string path, Func<HttpContent> body) in Bodies())
        {
            foreach (string? version in new[] { null, "\"1\"" })
            {
                Answer foreign = await Put(ana.Client, Address(path, p => theirs[p]), body(), version);
                Answer missing = await Put(ana.Client, Address(path, _ => Ids.New().ToString()), body(), version);
                Assert.True(foreign.Equals(missing) || path == "/api/sites/{site}" && version is null, $"{path}: {foreign} {missing}");
            }
        }

        // An id that another organization uses answers as one that one's own site uses for something else.
        Answer taken = await Put(ana.Client, $"/api/sites/{theirs["{site}"]}", Survey("Heron Bank"), null);
        Answer used = await Put(ana.Client, $"/api/sites/{own["{visit}"]}", Survey("Heron Bank"), null);
        Assert.Equal((409, used), (taken.Status, taken));
        string visits = $"/api/sites/{own["{site}"]}/visits/";
        Assert.Equal(await Put(ana.Client, visits + own["{reading}"], Running.AsJson(Running.Visit()), null),
            await Put(ana.Client, visits + theirs["{visit}"], Running.AsJson(Running.Visit()), null));
        Assert.Equal(409, (await Send(ana.Client, "POST", "/api/archives", Running.Bytes(before, "application/zip"))).Status);
        Assert.Equal(before.Length, (await other.Client.GetByteArrayAsync($"/api/sites/{theirs["{site}"]}/archive.zip")).Length);
    }

    [Fact]
    public async Task Lists_fleets_jobs_and_causes_show_ones_own_alone()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner),
            other = await office.Member(Foreign, "Other", MemberRole.Owner);
        Furnished own = await Furnish(ana.Client, "Heron Bank"), theirs = await Furnish(other.Client, "Otter Wharf");
        foreach (string list in new[] { "/api/sites", "/api/fleet.json", "/api/fleet.csv", "/api/jobs" })
        {
            string text = await ana.Client.GetStringAsync(list);
            Assert.Contains(own["{site}"], text, StringComparison.Ordinal);
            Assert.DoesNotContain(theirs["{site}"], text, StringComparison.Ordinal);
        }

        JsonElement carried = JsonSerializer.Deserialize<JsonElement>(
            await ana.Client.GetStringAsync($"/api/sites/{own["{site}"]}/carry.json"));
        Assert.Equal(1, carried.GetProperty("confirmedCauses").GetArrayLength());
        // A table that names another organization's site names none that there is.
        string table = $"site_id,site,controller\r\n{theirs["{site}"]},Otter Wharf,Gate\r\n";
        Answer import = await Send(ana.Client, "POST", "/api/fleet", Running.Bytes(System.Text.Encoding.UTF8.GetBytes(table), "text/csv"));
        Assert.Contains("There is no site with this id", import.Text, StringComparison.Ordinal);
        Assert.DoesNotContain($"\"nearest\": \"{theirs["{site}"]}", import.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_role_that_is_taken_away_is_gone_at_once_and_an_owner_stays()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner), ben = await office.Member("Parks", "Ben",
            MemberRole.Planner);
        Guid parks = office.Register(r => r.Organization("Parks", false)!.Id);
        Guid Id(string name) => office.Register(r => r.Members(parks)).Single(m => m.Person.UserName == name).Person.Id;
        Guid boss = Id("Ana"), planner = Id("Ben");
        Assert.Equal(201, (await Put(ben.Client, $"/api/sites/{Ids.New()}", Survey("Heron Bank"), null)).Status);
        await ana.Send("/people/account", $"/people/members/{planner}/role", ("role", "Reader"));
        Assert.Equal(403, (await Put(ben.Client, $"/api/sites/{Ids.New()}", Survey("Heron Bank"), null)).Status);
        await ana.Send("/people/account", $"/people/members/{planner}/remove");
        Assert.Equal(401, await ben.Status("/api/sites"));
        Assert.Equal(409, (int)(await ana.Send("/people/account", $"/people/members/{boss}/remove")).StatusCode);
        Assert.Equal(409, (int)(await ana.Send("/people/account", $"/people/members/{boss}/role", ("role", "Planner"))).StatusCode);
        Assert.Equal(200, await ana.Status("/api/sites"));
    }

    [Fact]
    public async Task Records_are_signed_with_the_name_of_who_signed_in()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana Ruiz", MemberRole.Owner);
        Guid site = Ids.New();
        Assert.Equal(201, (await Put(ana.Client, $"/api/sites/{site}?by=Mayor", Survey("Heron Bank"), null)).Status);
        string history = await ana.Client.GetStringAsync($"/api/sites/{site}/history");
        Assert.Contains("Ana Ruiz", history, StringComparison.Ordinal);
        Assert.DoesNotContain("Mayor", history, StringComparison.Ordinal);
        string address = $"/api/sites/{site}/visits/{Ids.New()}";
        Assert.Equal(201, (await Put(ana.Client, address, Running.AsJson(Running.Visit()), null)).Status);
        Assert.Contains("Ana Ruiz", await ana.Client.GetStringAsync(address), StringComparison.Ordinal);
    }

    /// <summary>Sites from before people signed in belong to the first organization, and to no other.</summary>
    [Fact]
    public async Task What_was_there_before_belongs_to_the_first_organization()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Owner);
        office.Clock.AdvanceMinutes(1);
        using Office.Browser other = await office.Member(Foreign, "Other", MemberRole.Owner);
        Guid site = Ids.New();
        Assert.Equal(201, (await Put(ana.Client, $"/api/sites/{site}", Survey("Heron Bank"), null)).Status);
        using (PeopleContext context = new(PeopleFile.Options(office.Store)))
        {
            context.SiteOwners.RemoveRange(context.SiteOwners);
            context.SaveChanges();
        }

        Assert.Equal((200, 404), (await ana.Status($"/api/sites/{site}"), await other.Status($"/api/sites/{site}")));
        Assert.Equal("[]", await other.Client.GetStringAsync("/api/sites"));
        Assert.Equal(409, (await Put(other.Client, $"/api/sites/{site}", Survey("Heron Bank"), null)).Status);
    }

    private static async Task<int> Hidden(HttpClient client, Operation operation, Furnished own, Furnished theirs, string what)
    {
        Furnished nowhere = new();
        Answer foreign = await Ask(client, operation, p => theirs[p]), missing = await Ask(client, operation, p => nowhere[p]);
        bool isSitePut = operation is { Method: "PUT", Path: "/api/sites/{site}" };
        Assert.True(foreign.Equals(missing), $"{what}: {foreign} is not {missing}");
        Assert.True(foreign.Status >= 400 || isSitePut, $"{what}: {foreign}");
        int compared = 1;
        if (Children.Any(c => operation.Path.Contains(c, StringComparison.Ordinal)))
        {
            // Another's record under one's own site.
            foreign = await Ask(client, operation, p => p == "{site}" ? own[p] : theirs[p]);
            missing = await Ask(client, operation, p => p == "{site}" ? own[p] : nowhere[p]);
            Assert.True(foreign.Equals(missing), $"{what}, own site: {foreign} is not {missing}");
            compared++;
        }

        return compared;
    }
}
