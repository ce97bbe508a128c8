using System.Diagnostics;
using System.Net;
using System.Text.Json;
using NodaTime;
using Valvewright.Server.Hosting;

namespace Valvewright.Server.Tests.People;

/// <summary>The command that sets up the first owner, as a person types it.</summary>
public sealed class PeopleCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-people-command-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_first_owner_comes_in_by_the_link_that_it_prints()
    {
        JsonElement invited = JsonSerializer.Deserialize<JsonElement>((await Run(
            "people", "add", "Ana Ruiz", "--organization", "City Parks", "--role", "owner", "--json")).Output);
        string store = Path.Combine(folder, "valvewright.db"), secret = invited.GetProperty("link").GetString()!.Split('/')[^1];
        await using (SiteServer server = await SiteServer.StartAsync(
            new ServerOptions { Store = store, Port = 0, SignIn = true }, SystemClock.Instance))
        {
            using Office.Browser ana = new(server.Address);
            Assert.Equal(HttpStatusCode.SeeOther, (await ana.Join(secret, "Ana Ruiz", Office.Password)).StatusCode);
            Assert.Equal(200, await ana.Status("/api/sites"));
            // While it is served.
            Assert.Contains("owner", (await Run("people")).Output, StringComparison.Ordinal);
            Assert.Equal(65, (await Run("people", "remove", "Ana Ruiz")).ExitCode);
            Assert.Equal(0, (await Run("people", "add", "Ben", "--role", "reader")).ExitCode);
            string renewed = JsonSerializer.Deserialize<JsonElement>((await Run("people", "password", "Ana Ruiz", "--json")).Output)
                .GetProperty("link").GetString()!;
            Assert.Equal(HttpStatusCode.SeeOther, (await ana.Join(renewed.Split('/')[^1], "", "another long password")).StatusCode);
        }
    }

    [Theory]
    [InlineData("other machines could read", "serve", "--listen", "0.0.0.0")]
    [InlineData("valvewright people add", "serve", "--listen", "0.0.0.0")]
    [InlineData("no one to sign in yet", "serve", "--sign-in")]
    [InlineData("unprotected", "serve", "--sign-in", "--listen", "0.0.0.0")]
    [InlineData("need no code", "serve", "--sign-in", "--code", "7KMW4PXA")]
    [InlineData("not an address", "serve", "--sign-in", "--proxy", "front")]
    [InlineData("no one to sign in yet", "people")]
    [InlineData("no name to work with", "people", "add")]
    [InlineData("no organization is named", "people", "add", "Ana")]
    [InlineData("no organization of this name", "people", "add", "Ana", "--organization", "Parks")]
    public async Task What_is_wrong_is_said(string said, params string[] arguments)
    {
        (int code, _, string error) = await Run(arguments);
        Assert.Equal(65, code);
        Assert.Contains(said, error.ReplaceLineEndings(" ").Replace("  ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    private async Task<(int ExitCode, string Output, string Error)> Run(params string[] arguments)
    {
        using Process process = Process.Start(
            new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), .. arguments])
            {
                RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder,
            })!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(), error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output, await error);
    }
}
