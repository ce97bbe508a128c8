using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>Who asks, with the role that they have at this moment.</summary>
/// <param name="Person">The person.</param>
/// <param name="Name">The name that records are signed with.</param>
/// <param name="Organization">The organization that they act for.</param>
/// <param name="Role">What they may do there; of a token never more than its maker may.</param>
/// <param name="IsProgram">Whether a token was sent.</param>
internal sealed record Caller(Guid Person, string Name, Guid Organization, MemberRole Role, bool IsProgram)
{
    /// <summary>The claim that names the organization of a sign-in.</summary>
    public const string OrganizationClaim = "organization";

    private const string Scheme = "Bearer ";

    /// <summary>Who asks; null where no one has signed in, or no longer is a member. A token that is sent counts alone.</summary>
    public static Task<Caller?> Of(HttpContext http)
    {
        string? header = http.Request.Headers.Authorization;
        return header is null ? OfCookie(http)
            : header.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase) ? OfToken(http, header[Scheme.Length..].Trim())
            : Task.FromResult<Caller?>(null);
    }

    private static async Task<Caller?> OfCookie(HttpContext http)
    {
        AuthenticateResult result = await http.AuthenticateAsync(IdentityConstants.ApplicationScheme);
        if (!result.Succeeded || !Guid.TryParse(result.Principal.FindFirstValue(ClaimTypes.NameIdentifier), out Guid person)
            || !Guid.TryParse(result.Principal.FindFirstValue(OrganizationClaim), out Guid organization))
        {
            return null;
        }

        http.User = result.Principal;
        PeopleContext context = http.RequestServices.GetRequiredService<PeopleContext>();
        return await context.Memberships.AsNoTracking().Where(m => m.PersonId == person && m.OrganizationId == organization)
            .Join(context.Users, m => m.PersonId, p => p.Id, (m, p) => new Caller(p.Id, p.UserName!, m.OrganizationId, m.Role, false))
            .SingleOrDefaultAsync(http.RequestAborted);
    }

    private static async Task<Caller?> OfToken(HttpContext http, string secret)
    {
        PeopleContext context = http.RequestServices.GetRequiredService<PeopleContext>();
        string digest = Secret.Digest(secret);
        Instant now = http.RequestServices.GetRequiredService<IClock>().GetCurrentInstant();
        if (await context.AccessTokens.AsNoTracking().SingleOrDefaultAsync(t => t.Digest == digest, http.RequestAborted) is not { } token
            || token.RevokedAt is not null || token.ExpiresAt <= now)
        {
            return null;
        }

        Membership? maker = await context.Memberships.AsNoTracking().SingleOrDefaultAsync(
            m => m.PersonId == token.PersonId && m.OrganizationId == token.OrganizationId, http.RequestAborted);
        string? name = await context.Users.Where(p => p.Id == token.PersonId).Select(p => p.UserName).SingleOrDefaultAsync();
        return maker is null || name is null ? null
            : new Caller(token.PersonId, $"{name} ({token.Name})", token.OrganizationId,
                (MemberRole)Math.Min((int)token.Role, (int)maker.Role), true);
    }
}
