using System.Text.Json;
using Valvewright.App.Link;
using Valvewright.App.Shelf;

namespace Valvewright.App.Outbox;

/// <summary>How a sending ended.</summary>
public enum Halt
{
    /// <summary>Nothing is left but what was refused.</summary>
    None,

    /// <summary>No server answers.</summary>
    NoServer,

    /// <summary>Something answers in the server's place, such as the sign-in page of a network.</summary>
    Stranger,

    /// <summary>The server answers, and can't keep anything just now.</summary>
    ServerInTrouble,
}

/// <summary>What a sending came to.</summary>
/// <param name="Sites">Sites of which something reached the server.</param>
/// <param name="Halt">How it ended.</param>
internal sealed record Sendings(IReadOnlySet<Guid> Sites, Halt Halt);

/// <summary>Sends what waits, one record after another.</summary>
/// <remarks>
/// A record leaves the device only when the answer is the server's own and speaks of this record, and only while it still says what was
/// sent: what was changed meanwhile stays, and rests from then on on the version that the server gave.
/// </remarks>
internal sealed class Sending(DeviceShelf shelf, ServerLink link)
{
    /// <summary>More corrections of one record do not meet a bad line; each is kept whole.</summary>
    private const int MostTried = 30;

    private readonly Dictionary<Guid, string> given = [];

    /// <summary>The version that the server last gave a record of this window; null where it gave none.</summary>
    public string? VersionOf(Guid id) => given.GetValueOrDefault(id);

    /// <summary>The order of recording; a photo never goes before its visit.</summary>
    public static IEnumerable<UnsentRecord> InOrder(IReadOnlyCollection<UnsentRecord> records)
    {
        Dictionary<Guid, long> numbers = records.ToDictionary(r => r.Id, r => r.Number);
        return records.OrderBy(r => r.After is { } visit ? Math.Max(r.Number, numbers.GetValueOrDefault(visit)) : r.Number)
            .ThenBy(r => r.After is not null).ThenBy(r => r.MadeAt).ThenBy(r => r.Id);
    }

    /// <summary>Sends all that waits and was not refused.</summary>
    public async Task<Sendings> AllAsync()
    {
        HashSet<Guid> sites = [];
        Halt halt = Halt.None;
        Guid[] order = [.. InOrder(await shelf.All<UnsentRecord>(Unsent.Store)).Select(r => r.Id)];
        HashSet<Guid> notMade = [];
        foreach (Guid id in order)
        {
            // Read afresh: the person may have changed or thrown away what waits while the one before was on its way.
            if (await shelf.Hold<UnsentRecord>(Unsent.Store, id.ToString()) is not { Value: var record } held)
            {
                continue;
            }

            Outcome outcome = record.Refusal is not null ? Outcome.Stays
                : (record.After is { } visit && notMade.Contains(visit)) || (record.Id != record.Site && notMade.Contains(record.Site))
                    ? Outcome.Stays
                : await One(held);
            if (outcome == Outcome.Kept)
            {
                sites.Add(record.Site);
            }
            else if (record.Version is null)
            {
                notMade.Add(record.Id);
            }

            if (outcome is Outcome.NoServer or Outcome.Stranger)
            {
                return new Sendings(sites, outcome == Outcome.NoServer ? Halt.NoServer : Halt.Stranger);
            }

            halt = outcome == Outcome.Later ? Halt.ServerInTrouble : halt;
        }

        return new Sendings(sites, halt);
    }

    /// <summary>Takes a record and its photo off the device, whatever it says.</summary>
    public async Task Drop(UnsentRecord record)
    {
        await shelf.Remove(Unsent.Store, record.Id.ToString());
        if (record.Body is null)
        {
            await shelf.Remove(Unsent.Photos, record.Id.ToString());
        }
    }

    private async Task<Outcome> One(Held<UnsentRecord> held, bool again = false)
    {
        UnsentRecord record = held.Value;
        if (await Content(record) is not { } content)
        {
            return Outcome.Stays;
        }

        Held<UnsentRecord> sent = held;
        if (record.Body is { } body && (record.Tried.Count == 0 || record.Tried[^1] != body))
        {
            if (await Swap(held, record with { Tried = record.Tried.Where(t => t != body).Append(body).TakeLast(MostTried).ToListOf() })
                is not { Held: { } marked })
            {
                return Outcome.Stays;
            }

            sent = marked;
        }

        Reply<JsonElement> reply = await link.Put<JsonElement>(record.Address, content, record.Version, record.By);
        if (reply.IsUnreachable)
        {
            return reply.IsStranger ? Outcome.Stranger : Outcome.NoServer;
        }

        if (reply.Trouble is { } trouble)
        {
            return await Refused(sent, record.Tried, trouble, again);
        }

        return SpeaksOf(reply.Value, record) && reply.ETag is { } version ? await Leave(sent, version) : Outcome.Stranger;
    }

    /// <summary>The server keeps it. Where it was changed meanwhile, the change rests on what the server keeps now.</summary>
    private async Task<Outcome> Leave(Held<UnsentRecord> sent, string version)
    {
        UnsentRecord record = sent.Value;
        given[record.Id] = version;
        while (!(await Swap(sent, null)).IsDone)
        {
            if (await shelf.Hold<UnsentRecord>(Unsent.Store, record.Id.ToString()) is not { } now
                || (await Swap(now, now.Value with { Version = version, Tried = [], Refusal = null, Problem = null })).IsDone)
            {
                return Outcome.Kept;
            }
        }

        if (record.Body is null)
        {
            await See(record);
        }

        return Outcome.Kept;
    }

    /// <summary>A photo that was sent stays to be seen here; where the device does not keep it as that, it goes.</summary>
    private async Task See(UnsentRecord photo)
    {
        try
        {
            await new SentPhotos(shelf).KeepAsync(photo.Id, photo.Site);
        }
        catch (ShelfException)
        {
            await shelf.Remove(Unsent.Photos, photo.Id.ToString());
        }
    }

    private async Task<Outcome> Refused(Held<UnsentRecord> sent, ListOf<string> triedBefore, Trouble trouble, bool again)
    {
        if (trouble.Status is >= 500 or 429 or 408)
        {
            return Outcome.Later;
        }

        // "A person was first", and it was this device: an earlier sending had arrived, only its answer had not.
        if (trouble.Status is 412 or 428 && !again && triedBefore.Any(t => Says(trouble, t)) && VersionIn(trouble) is { } version)
        {
            return await Swap(sent, sent.Value with { Version = version, Tried = [] }) is { Held: { } rebased }
                ? await One(rebased, again: true) : Outcome.Stays;
        }

        string? whole = trouble.Whole.ValueKind == JsonValueKind.Undefined ? null : trouble.Whole.GetRawText();
        await Swap(sent, sent.Value with { Refusal = trouble.Detail, Problem = whole, Tried = [] });
        return Outcome.Stays;
    }

    private Task<(bool IsDone, Held<UnsentRecord>? Held)> Swap(Held<UnsentRecord> held, UnsentRecord? record) =>
        shelf.Swap(Unsent.Store, held.Value.Id.ToString(), held, record);

    /// <summary>An answer that names another record is not about this one; one that names none must at least have a version.</summary>
    private static bool SpeaksOf(JsonElement answer, UnsentRecord record) => answer.ValueKind == JsonValueKind.Object
        && (answer.TryGetProperty("id", out JsonElement id)
            ? id.ValueKind == JsonValueKind.String && id.TryGetGuid(out Guid said) && said == record.Id
            : answer.TryGetProperty("version", out JsonElement version) && version.ValueKind == JsonValueKind.Number);

    private static string? VersionIn(Trouble trouble) => trouble.Member("version") is { } version ? $"\"{version}\"" : null;

    /// <summary>Whether what the server keeps is that text: a record as JSON, or a survey as written.</summary>
    private static bool Says(Trouble trouble, string text)
    {
        if (trouble.Whole.ValueKind != JsonValueKind.Object || !trouble.Whole.TryGetProperty("current", out JsonElement current))
        {
            return false;
        }

        if (current.ValueKind == JsonValueKind.Object && current.TryGetProperty("survey", out JsonElement survey)
            && survey.ValueKind == JsonValueKind.String)
        {
            return survey.GetString() == text;
        }

        try
        {
            return JsonElement.DeepEquals(current, JsonSerializer.Deserialize<JsonElement>(text, Json.Options));
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private async Task<HttpContent?> Content(UnsentRecord record) => record.Body is { } text
        ? ServerLink.Body(text, record.Type)
        : await shelf.GetBytes(Unsent.Photos, record.Id.ToString()) is { } bytes ? ServerLink.Body(bytes, record.Type) : null;

    private enum Outcome
    {
        Kept,
        Stays,
        Later,
        NoServer,
        Stranger,
    }
}
