using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Conflicts;

/// <summary>Removes a record of a version that the person has seen.</summary>
internal static class Removing
{
    public static IResult Of<T>(SiteStore store, Guid site, Guid id, string? ifMatch, Stamp stamp, string what)
        where T : class
    {
        if (store.Find<T>(site, id) is null)
        {
            throw Refusal.NotFound(what);
        }

        long expected = Given.NeededVersion(ifMatch);
        Answer<T> answer = store.Remove<T>(site, id, expected, stamp);
        return answer.Outcome switch
        {
            Outcome.Changed => Results.NoContent(),
            Outcome.Missing => throw Refusal.NotFound(what),
            _ => throw Keeping.Conflict(store, id, answer.Record, null, expected),
        };
    }
}
