using System.Collections.Frozen;

namespace Valvewright.Server.People;

/// <summary>Who may do what: the least role for every address (docs/people.md). An address that is not here is refused to
/// everyone.</summary>
internal static class LeastRoles
{
    private static readonly FrozenDictionary<string, MemberRole?> Table = Rows().ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Every address with its least role; null where no sign-in is needed.</summary>
    public static IReadOnlyDictionary<string, MemberRole?> All => Table;

    /// <summary>Whether an address has a least role, and which; null: no sign-in is needed.</summary>
    public static bool TryFind(Endpoint endpoint, string method, out MemberRole? least)
    {
        least = null;
        return endpoint is RouteEndpoint route && Table.TryGetValue($"{method} {route.RoutePattern.RawText}", out least);
    }

    private static Dictionary<string, MemberRole?> Rows()
    {
        Dictionary<string, MemberRole?> rows = [];
        Add(rows, null,
            "GET /read/{site}/{key}", "GET /people/sign-in", "POST /people/sign-in", "GET /people/invitation/{secret}",
            "POST /people/invitation/{secret}", "GET /health/live", "GET /health/ready",
            "GET /feeds/{secret}/advice.ics", "GET /feeds/{secret}/advice.json");
        Add(rows, MemberRole.Reader,
            "GET /api/description.json", "GET /api/profiles", "POST /api/surveys/understood", "GET /api/sites", "GET /api/sites/{site}",
            "GET /api/sites/{site}/survey", "GET /api/sites/{site}/needs.json", "GET /api/sites/{site}/weather",
            "GET /api/sites/{site}/carry.json", "GET /api/sites/{site}/history", "GET /api/sites/{site}/plans",
            "GET /api/sites/{site}/plans/{plan}", "GET /api/sites/{site}/plans/{plan}/cards.pdf",
            "GET /api/sites/{site}/plans/{plan}/cards.txt", "GET /api/sites/{site}/plans/{plan}/timeline.json",
            "GET /api/sites/{site}/plans/{plan}/timeline.ics", "GET /api/sites/{site}/plans/{plan}/timeline.csv",
            "GET /api/sites/{site}/plans/{plan}/timeline.svg", "GET /api/sites/{site}/traces", "GET /api/sites/{site}/traces/{trace}",
            "GET /api/sites/{site}/readings", "GET /api/sites/{site}/readings/{reading}",
            "GET /api/sites/{site}/readings/{reading}/check", "GET /api/sites/{site}/visits", "GET /api/sites/{site}/visits/{visit}",
            "GET /api/sites/{site}/visits/{visit}/photos/{photo}", "GET /api/sites/{site}/jobs", "GET /api/jobs", "GET /api/jobs/{job}",
            "GET /api/sites/{site}/archive.zip", "GET /api/fleet.json", "GET /api/fleet.csv", "GET /api/fleet.xlsx",
            "GET /api/advice.json",
            "GET /people/account", "POST /people/sign-out", "POST /people/sign-out-everywhere", "POST /people/password",
            "POST /people/organization", "POST /people/tokens", "POST /people/tokens/{token}/revoke");
        Add(rows, MemberRole.Technician,
            "PUT /api/sites/{site}/visits/{visit}", "DELETE /api/sites/{site}/visits/{visit}",
            "PUT /api/sites/{site}/visits/{visit}/photos/{photo}", "DELETE /api/sites/{site}/visits/{visit}/photos/{photo}",
            "PUT /api/sites/{site}/readings/{reading}", "DELETE /api/sites/{site}/readings/{reading}",
            "PUT /api/sites/{site}/traces/{trace}", "DELETE /api/sites/{site}/traces/{trace}");
        Add(rows, MemberRole.Planner,
            "PUT /api/sites/{site}", "DELETE /api/sites/{site}", "PUT /api/sites/{site}/weather", "DELETE /api/sites/{site}/weather",
            "POST /api/sites/{site}/history/{entry}/undo", "PUT /api/sites/{site}/plans/{plan}", "DELETE /api/sites/{site}/plans/{plan}",
            "POST /api/sites/{site}/jobs", "DELETE /api/jobs/{job}", "POST /api/archives", "POST /api/fleet",
            "GET /api/sites/{site}/read-link.txt", "GET /api/feeds", "POST /api/feeds", "DELETE /api/feeds/{feed}");
        Add(rows, MemberRole.Owner,
            "POST /people/invitations", "POST /people/invitations/{invitation}/revoke", "POST /people/members/{member}/role",
            "POST /people/members/{member}/remove");
        return rows;
    }

    private static void Add(Dictionary<string, MemberRole?> rows, MemberRole? least, params string[] addresses)
    {
        foreach (string address in addresses)
        {
            rows.Add(address, least);
        }
    }
}
