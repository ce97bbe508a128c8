using System.Security.Cryptography;
using System.Text;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Plans;

/// <summary>A plan as it is kept in a file: with the version of the layout, and what tells that the survey has changed since.</summary>
/// <param name="Version">Version of the layout, <see cref="Latest"/> when written.</param>
/// <param name="Survey">Digest of the survey that the plan was made for, <see cref="DigestOf"/>.</param>
/// <param name="From">The first date on which it is in force.</param>
/// <param name="Plan">The plan itself.</param>
public sealed record SavedPlan(int Version, string Survey, LocalDate From, Plan Plan)
{
    /// <summary>The layout that is written; it is the only one so far.</summary>
    public const int Latest = 1;

    /// <summary>A plan ready to be saved.</summary>
    public static SavedPlan Of(Site site, Plan plan, LocalDate from) => new(Latest, DigestOf(site), from, plan);

    /// <summary>Whether it was made for this survey as it stands.</summary>
    public bool IsFor(Site site) => Survey == DigestOf(site);

    /// <summary>The first 16 hexadecimal digits of the SHA-256 of what the survey says. Comments, layout and where the weather file lies
    /// don't count.</summary>
    public static string DigestOf(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        string text = System.Text.Json.JsonSerializer
            .Serialize((site.Surveyed ?? site) with { Weather = null, Assumptions = [] }, Json.Compact);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..16];
    }
}
