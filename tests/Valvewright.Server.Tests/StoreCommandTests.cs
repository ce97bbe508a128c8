using System.Diagnostics;
using System.Net;
using System.Text.Json;
using Valvewright.Records;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

/// <summary>The commands serve, backup, restore and verify, as a person types them.</summary>
public sealed class StoreCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-commands-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_store_is_copied_while_it_is_served_and_put_back_afterwards()
    {
        string store = Path.Combine(folder, "sites.db"), copy = Path.Combine(folder, "copy.db");
        Guid first = Ids.New(), second = Ids.New();
        using (ServerProcess server = await ServerProcess.Start(store))
        {
            await Put(server, first);
            Assert.Equal(0, (await Run("backup", "--store", store, copy)).ExitCode);
            await Put(server, second);
            (int ExitCode, string Output, string Error) refused = await Run("restore", "--store", store, copy);
            Assert.Equal(65, refused.ExitCode);
            Assert.Contains("another program has this store open", refused.Error.ReplaceLineEndings(" "), StringComparison.Ordinal);
            Assert.Equal(65, (await Run("serve", "--store", store, "--port", "0")).ExitCode);
        }

        JsonElement intact = JsonSerializer.Deserialize<JsonElement>((await Run("verify", "--store", store, "--json")).Output);
        Assert.Equal((2, true), (intact.GetProperty("sites").GetInt32(), intact.GetProperty("isWhole").GetBoolean()));
        JsonElement restored = JsonSerializer.Deserialize<JsonElement>((await Run("restore", "--store", store, copy, "--json")).Output);
        Assert.Equal(1, restored.GetProperty("holds").GetProperty("sites").GetInt32());
        Assert.Equal(0, (await Run("verify", "--store", restored.GetProperty("former").GetString()!)).ExitCode);
        using ServerProcess again = await ServerProcess.Start(store);
        Assert.Equal(HttpStatusCode.OK, (await again.Client!.GetAsync($"/api/sites/{first}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await again.Client.GetAsync($"/api/sites/{second}")).StatusCode);
    }

    [Theory]
    [InlineData("serve", "--port", "99999")]
    [InlineData("serve", "--listen", "nowhere")]
    [InlineData("verify", "--store", "missing.db")]
    [InlineData("backup", "--store", "missing.db", "copy.db")]
    [InlineData("restore", "missing.db")]
    public async Task What_is_wrong_is_said_and_nothing_is_written(params string[] arguments)
    {
        (int code, _, string error) = await Run(arguments);
        Assert.Equal(65, code);
        Assert.Contains("Nothing was written.", error, StringComparison.Ordinal);
        Assert.DoesNotContain(Directory.GetFiles(folder), f => !f.EndsWith(".lock", StringComparison.Ordinal));
    }

    private static async Task Put(ServerProcess server, Guid site) =>
        (await server.Client!.PutAsync($"/api/sites/{site}", Running.Yaml(Writer.Survey("Bed", "x")))).EnsureSuccessStatusCode();

    private async Task<(int ExitCode, string Output, string Error)> Run(params string[] arguments)
    {
        using Process process = Process
            .Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), .. arguments])
        {
            RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder,
        })!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(), error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output, await error);
    }
}
