using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Valvewright.Store;
using Valvewright.Store.Files;
using Valvewright.Records;

namespace Valvewright.Tests.Serving;

/// <summary>What became of many who wrote at once.</summary>
/// <param name="Seconds">For how long.</param>
/// <param name="Kept">Changes of their own that the server said were kept.</param>
/// <param name="Shared">Changes to the one site that all of them edited.</param>
/// <param name="Refused">Attempts at it that were refused because somebody else was first.</param>
/// <param name="Faults">What was lost or is not whole.</param>
internal sealed record CrowdOutcome(double Seconds, int Kept, int Shared, int Refused, IReadOnlyList<string> Faults);

/// <summary>Many people who write at once, each to a site of their own and all to one.</summary>
internal static partial class Crowd
{
    /// <param name="folder">Where the store is.</param>
    /// <param name="people">How many.</param>
    /// <param name="isEnough">Whether enough has been written: changes of their own, changes to the common site, refusals.</param>
    /// <param name="seed">Of what they write.</param>
    public static async Task<CrowdOutcome> Run(string folder, int people, Func<int, int, int, bool> isEnough, int seed)
    {
        string file = Path.Combine(folder, "crowd.db");
        Writer[] writers = [.. Enumerable.Range(0, people).Select(w => new Writer(w, seed + w))];
        Guid shared = Ids.New();
        int added = 0, refused = 0;
        Stopwatch watch = Stopwatch.StartNew();
        using (ServerProcess server = await ServerProcess.Start(file))
        {
            using StringContent first = Content(0, 0);
            (await server.Client!.PutAsync($"/api/sites/{shared}", first)).EnsureSuccessStatusCode();
            using CancellationTokenSource stop = new();
            async Task AddOne(int who)
            {
                while (!stop.IsCancellationRequested)
                {
                    using HttpResponseMessage got = await server.Client!.GetAsync($"/api/sites/{shared}/survey");
                    string text = await got.Content.ReadAsStringAsync();
                    using HttpRequestMessage put = new(HttpMethod.Put, $"/api/sites/{shared}")
                        { Content = Content(CountIn(text) + 1, who) };
                    put.Headers.TryAddWithoutValidation("If-Match", got.Headers.ETag!.Tag);
                    using HttpResponseMessage answer = await server.Client.SendAsync(put);
                    _ = answer.StatusCode == HttpStatusCode.OK ? Interlocked.Increment(ref added)
                        : answer.StatusCode == HttpStatusCode.PreconditionFailed ? Interlocked.Increment(ref refused)
                        : throw new InvalidOperationException($"{answer.StatusCode}");
                    if (isEnough(writers.Sum(w => w.Kept), added, refused))
                    {
                        await stop.CancelAsync();
                    }
                }
            }

            await Task.WhenAll([
                .. writers.Select(w => w.Write(server.Client!, stop.Token)), .. Enumerable.Range(0, people).Select(AddOne)]);
        }

        double seconds = watch.Elapsed.TotalSeconds;
        return new CrowdOutcome(seconds, writers.Sum(w => w.Kept), added, refused, Look(file, writers, shared, added));
    }

    private static List<string> Look(string file, Writer[] writers, Guid shared, int added)
    {
        using SiteStore store = SiteStore.Open(file);
        List<string> faults = [.. writers.SelectMany(w => w.Missing(store))];
        Kept<SiteValue> counted = store.Site(shared)!;
        if (CountIn(counted.Value.Survey) != added || counted.Version != added + 1)
        {
            faults.Add(
                $"{added} changes to the shared site were kept; it counts {CountIn(counted.Value.Survey)} and is of version {counted.Version}.");
        }

        faults.AddRange(Intact.Check(file).Faults.Select(f => f.Text));
        return faults;
    }

    /// <summary>It says whose it is: of two who send the same, the second would rightly be told that it is kept.</summary>
    private static StringContent Content(int count, int who) =>
        new(Writer.Survey("Shared", $"count {count}. by {who}"), Encoding.UTF8, "application/yaml");

    private static int CountIn(string survey) =>
        int.Parse(Count().Match(survey).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex("count ([0-9]+)\\.")]
    private static partial Regex Count();
}
