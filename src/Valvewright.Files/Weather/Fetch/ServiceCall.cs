using System.Net;
using Polly;
using Polly.Retry;

namespace Valvewright.Files.Weather.Fetch;

/// <summary>What an attempt brought: a whole answer, or why there is none and whether another attempt may help.</summary>
/// <param name="Bytes">The answer.</param>
/// <param name="Failure">Why there is none, in a sentence.</param>
/// <param name="MayPass">Whether trying again may help.</param>
/// <param name="RetryAfter">How long the service asks to wait.</param>
internal sealed record Attempt(byte[]? Bytes, Sentence? Failure, bool MayPass, TimeSpan? RetryAfter = null);

/// <summary>
/// Asks a service over HTTP: each attempt in its time; after a failure that may pass (no connection, time-out, 408, 429, 5xx, an answer
/// cut short) again, waiting twice as long each time, or as long as the service asks.
/// </summary>
internal sealed class ServiceCall
{
    private readonly HttpClient client;
    private readonly FetchSettings settings;
    private readonly ResiliencePipeline<Attempt> pipeline;

    public ServiceCall(HttpClient client, FetchSettings settings)
    {
        this.client = client;
        this.settings = settings;
        ResiliencePipelineBuilder<Attempt> builder = new() { TimeProvider = settings.Time };
        if (settings.Retries > 0)
        {
            builder.AddRetry(new RetryStrategyOptions<Attempt>
            {
                MaxRetryAttempts = settings.Retries,
                Delay = settings.FirstDelay,
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                MaxDelay = settings.LongestWait,
                ShouldHandle = arguments => ValueTask.FromResult(
                    arguments.Outcome.Result is { MayPass: true } attempt && !(attempt.RetryAfter > settings.LongestWait)),
                DelayGenerator = arguments => ValueTask.FromResult(arguments.Outcome.Result?.RetryAfter),
            });
        }

        pipeline = builder.Build();
    }

    /// <summary>The last attempt. <paramref name="isWhole"/> tells whether an answer is complete; null, or why not.</summary>
    public async Task<Attempt> AskAsync(Uri address, Func<byte[], string?> isWhole, CancellationToken cancel) =>
        await pipeline.ExecuteAsync(async token => await TryAsync(address, isWhole, token).ConfigureAwait(false), cancel)
            .ConfigureAwait(false);

    private async Task<Attempt> TryAsync(Uri address, Func<byte[], string?> isWhole, CancellationToken cancel)
    {
        using CancellationTokenSource time = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        time.CancelAfter(settings.AttemptTimeout);
        try
        {
            using HttpResponseMessage response = await client.GetAsync(address, HttpCompletionOption.ResponseHeadersRead, time.Token)
                .ConfigureAwait(false);
            byte[] bytes = await ReadAsync(response, time.Token).ConfigureAwait(false);
            return Judge(response, bytes, isWhole);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return new Attempt(null, $"no answer within {settings.AttemptTimeout.TotalSeconds:0.#} s", true);
        }
        catch (Exception e) when (e is HttpRequestException or IOException)
        {
            string reason = (e.InnerException ?? e).Message.TrimEnd('.');
            return new Attempt(null, $"the connection failed ({reason})", true);
        }
    }

    private async Task<byte[]> ReadAsync(HttpResponseMessage response, CancellationToken cancel)
    {
        using Stream body = await response.Content.ReadAsStreamAsync(cancel).ConfigureAwait(false);
        using MemoryStream kept = new();
        byte[] buffer = new byte[64 * 1024];
        int count;
        while ((count = await body.ReadAsync(buffer, cancel).ConfigureAwait(false)) > 0 && kept.Length <= settings.LargestBytes)
        {
            kept.Write(buffer, 0, count);
        }

        return kept.ToArray();
    }

    private Attempt Judge(HttpResponseMessage response, byte[] bytes, Func<byte[], string?> isWhole)
    {
        int code = (int)response.StatusCode;
        if (!response.IsSuccessStatusCode)
        {
            bool mayPass = code >= 500 || response.StatusCode is HttpStatusCode.RequestTimeout or HttpStatusCode.TooManyRequests;
            string told = code < 500 ? Told(bytes) : "";
            return new Attempt(null, $"the service answered {code} {response.ReasonPhrase}{told}", mayPass, RetryAfter(response));
        }

        string type = response.Content.Headers.ContentType?.MediaType ?? "";
        if (!type.Contains("json", StringComparison.OrdinalIgnoreCase))
        {
            return new Attempt(null,
                $"the service answered {(type.Length > 0 ? type : "something without a type")} instead of JSON", false);
        }

        if (bytes.Length > settings.LargestBytes)
        {
            return new Attempt(null, $"the answer is larger than {settings.LargestBytes / 1e6:0} MB; ask for fewer years", false);
        }

        return isWhole(bytes) is { } cut ? new Attempt(null, $"the answer is cut short ({cut})", true) : new Attempt(bytes, null, false);
    }

    private static TimeSpan? RetryAfter(HttpResponseMessage response) => response.Headers.RetryAfter switch
    {
        { Delta: { } delta } => delta,
        { Date: { } date } => TimeSpan.FromTicks(Math.Max(0, (date - DateTimeOffset.UtcNow).Ticks)),
        _ => null,
    };

    /// <summary>What a refusal says, on one line.</summary>
    private static string Told(byte[] bytes)
    {
        string text = System.Text.Encoding.UTF8.GetString(bytes, 0, Math.Min(bytes.Length, 300));
        string line = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.Length == 0 ? "" : $": {string.Concat(line.Select(c => char.IsControl(c) ? ' ' : c))}";
    }
}
