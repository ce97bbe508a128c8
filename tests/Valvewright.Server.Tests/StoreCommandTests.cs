using System.Diagnostics;
using System.Net;
using System.Text.Json;
using Valvewright.Records;
using Valvewright.Tests.Databases;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

/// <summary>The commands serve, backup, restore and verify, as a person types them.</summary>
[Collection("Silos of a database")] // One after another: silos look for free ports on one machine.
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

    [Fact]
    public async Task A_database_is_served_backed_up_verified_and_moved_and_no_password_is_printed()
    {
        string database = PostgresCluster.Shared.Database().Replace("valvewright@", "valvewright:s3cret@", StringComparison.Ordinal);
        string copy = Path.Combine(folder, "copy.db"), moved = Path.Combine(folder, "moved.db");
        Guid first = Ids.New();
        List<(int ExitCode, string Output, string Error)> runs = [await Run("verify", "--store", database)];
        Assert.Equal(65, runs[^1].ExitCode);
        using (ServerProcess server = await ServerProcess.Start(database))
        {
            await Put(server, first);
            runs.AddRange([await Run("backup", "--store", database, copy), await Run("move", "--from", database, "--to", moved)]);
            Assert.Equal((0, 65), (runs[^2].ExitCode, runs[^1].ExitCode));
            Assert.Contains("another program has this store open", runs[^1].Error.ReplaceLineEndings(" "), StringComparison.Ordinal);
            Assert.False(File.Exists(moved));
        }

        runs.AddRange([await Run("move", "--from", database, "--to", moved, "--json"), await Run("verify", "--store", moved),
            await Run("verify", "--store", database), await Run("carry", "Bed", "--store", database, "--language", "es")]);
        Assert.All(runs[^4..^1], r => Assert.Equal(0, r.ExitCode));
        runs.AddRange([await Run("move", "--from", copy, "--to", database), await Run("restore", "--store", database, copy)]);
        Assert.All(runs[^2..], r => Assert.Equal(65, r.ExitCode));
        Assert.Contains("not empty: 1 sites, 1 changes", runs[^2].Error.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.All(runs, r => Assert.DoesNotContain("s3cret", r.Output + r.Error, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("serve", "--port", "99999")]
    [InlineData("serve", "--listen", "nowhere")]
    [InlineData("verify", "--store", "missing.db")]
    [InlineData("backup", "--store", "missing.db", "copy.db")]
    [InlineData("restore", "missing.db")]
    [InlineData("move", "--from", "missing.db", "--to", "new.db")]
    [InlineData("verify", "--store", "mysql://ana@host/sites")]
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
