using System.Text.Json;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Conflicts;

/// <summary>Turns what the store answers into what the person is told.</summary>
internal static class Keeping
{
    /// <summary>
    /// The record, once it says what was asked for. Where another person was first, nothing is lost: the refusal holds their version, the
    /// version that both began with, and what each of the two has changed.
    /// </summary>
    public static Kept<T> Settle<T>(SiteStore store, Guid id, Answer<T> answer, T given, long? expected, HttpContext http)
        where T : class
    {
        switch (answer.Outcome)
        {
            case Outcome.Made:
                http.Response.StatusCode = StatusCodes.Status201Created;
                http.Response.Headers.Location = http.Request.Path.Value;
                break;
            case Outcome.Changed or Outcome.Same:
                break;
            case Outcome.Missing:
                throw expected is null ? Refusal.NotFound("site") : new Refusal(StatusCodes.Status412PreconditionFailed, "changed-since",
                    "It has been removed since, or was never there. Nothing was stored.");
            case Outcome.Taken:
                throw new Refusal(StatusCodes.Status409Conflict, "id-taken", "This id belongs to another record. Nothing was stored.");
            default:
                throw Conflict(store, id, answer.Record, given, expected);
        }

        http.Response.Headers.ETag = Given.Tag(answer.Record!.Version);
        return answer.Record;
    }

    /// <summary>What is said when another person was first.</summary>
    public static Refusal Conflict<T>(SiteStore store, Guid id, Kept<T>? current, T? given, long? expected)
        where T : class
    {
        Refusal refusal = expected is null
            ? new Refusal(StatusCodes.Status428PreconditionRequired, "version-needed",
                "There is a record of this id already. Say in If-Match which version was changed. Nothing was stored.")
            : new Refusal(StatusCodes.Status412PreconditionFailed, "changed-since",
                "Another person changed it. Nothing was stored; both versions are here.");
        if (given is not null)
        {
            refusal.With("given", ElementOf(given));
        }

        T? common = expected is { } version && store.EntryOf(id, version)?.After is { } text
            ? JsonSerializer.Deserialize<T>(text, Json.Compact) : null;
        if (common is not null)
        {
            refusal.With("common", ElementOf(common));
            if (given is not null)
            {
                refusal.With("yours", Between(common, given));
            }
        }

        if (current is null)
        {
            // With the version of the removal it can be put back as it was given: that, too, is for a person to say.
            return refusal.With("removed", true).With("version", store.VersionOf(id));
        }

        refusal.With("version", current.Version).With("changed", current.Changed).With("current", ElementOf(current.Value));
        if (given is not null)
        {
            refusal.With("fromCurrentToGiven", Between(current.Value, given));
        }

        if (common is not null)
        {
            refusal.With("theirs", Between(common, current.Value));
        }

        return refusal;
    }

    private static object Between<T>(T from, T to) => (from, to) switch
    {
        (SiteValue a, SiteValue b) => Difference.OfLines(a.Survey, b.Survey),
        (PlanValue a, PlanValue b) => Difference.OfLines(a.Plan, b.Plan),
        _ => Difference.OfMembers(ElementOf(from), ElementOf(to)),
    };

    private static JsonElement ElementOf<T>(T value) => JsonSerializer.SerializeToElement(value, Json.Options);
}
