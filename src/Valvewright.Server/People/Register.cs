using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>Who belongs to which organization, who is invited, which programs may come.</summary>
internal sealed class Register(PeopleContext context, IClock clock)
{
    /// <summary>How long a link can be used.</summary>
    public static readonly Duration LinkLasts = Duration.FromDays(7);

    /// <summary>The longest that a token is valid.</summary>
    public const int MostTokenDays = 365;

    /// <summary>An organization by its name; made where there is none and it may be.</summary>
    public Organization? Organization(string name, bool make)
    {
        Organization? there = context.Organizations.SingleOrDefault(o => o.Name == name);
        if (there is null && make)
        {
            there = new Organization { Id = Guid.CreateVersion7(), Name = name, MadeAt = clock.GetCurrentInstant() };
            context.Organizations.Add(there);
            context.SaveChanges();
        }

        return there;
    }

    /// <summary>The name of an organization.</summary>
    public string NameOf(Guid organization) => context.Organizations.Where(o => o.Id == organization).Select(o => o.Name).Single();

    /// <summary>Makes a link by which a person becomes a member, or gets a new password.</summary>
    /// <returns>The secret part of the link, which is nowhere kept.</returns>
    public string Invite(Guid organization, string name, MemberRole role, string by, Guid? renewed = null)
    {
        string secret = Secret.Make();
        context.Invitations.Add(new Invitation
        {
            Id = Guid.CreateVersion7(), OrganizationId = organization, Name = name, Role = role, By = by, PersonId = renewed,
            Digest = Secret.Digest(secret), ExpiresAt = clock.GetCurrentInstant() + LinkLasts,
        });
        context.SaveChanges();
        return secret;
    }

    /// <summary>Links of an organization that can still be used.</summary>
    public IReadOnlyList<Invitation> Invited(Guid organization)
    {
        Instant now = clock.GetCurrentInstant();
        return [.. context.Invitations.AsNoTracking().Where(i => i.OrganizationId == organization && i.UsedAt == null && i.ExpiresAt > now)
            .OrderBy(i => i.ExpiresAt)];
    }

    /// <summary>Takes a link back.</summary>
    public void Withdraw(Guid organization, Guid invitation) =>
        context.Invitations.Where(i => i.Id == invitation && i.OrganizationId == organization && i.UsedAt == null).ExecuteDelete();

    /// <summary>Members of an organization, or of all, by name.</summary>
    public IReadOnlyList<(Person Person, Organization Organization, MemberRole Role)> Members(Guid? organization) =>
        [.. context.Memberships.AsNoTracking().Where(m => organization == null || m.OrganizationId == organization)
            .Join(context.Users, m => m.PersonId, p => p.Id, (m, p) => new { m, p })
            .Join(context.Organizations, x => x.m.OrganizationId, o => o.Id, (x, o) => new { x.p, o, x.m.Role })
            .AsEnumerable().OrderBy(x => x.o.Name, StringComparer.Ordinal).ThenBy(x => x.p.UserName, StringComparer.Ordinal)
            .Select(x => (x.p, x.o, x.Role))];

    /// <summary>The organizations of a person.</summary>
    public IReadOnlyList<Organization> OrganizationsOf(Guid person) =>
        [.. context.Memberships.AsNoTracking().Where(m => m.PersonId == person)
            .Join(context.Organizations, m => m.OrganizationId, o => o.Id, (m, o) => o).OrderBy(o => o.Name)];

    /// <summary>Gives a member another role, or none: then they are no member any more. It counts from their next request on.</summary>
    /// <returns>False where they are no member, or the organization would be without an owner.</returns>
    public bool Set(Guid organization, Guid person, MemberRole? role)
    {
        using var transaction = context.Database.BeginTransaction();
        Membership? there = context.Memberships.Find(person, organization);
        bool isLast = there?.Role == MemberRole.Owner && role != MemberRole.Owner
            && !context.Memberships.Any(m => m.OrganizationId == organization && m.Role == MemberRole.Owner && m.PersonId != person);
        if (there is null || isLast)
        {
            return false;
        }

        if (role is { } next)
        {
            there.Role = next;
        }
        else
        {
            context.Memberships.Remove(there);
            context.AccessTokens.Where(t => t.PersonId == person && t.OrganizationId == organization).ExecuteDelete();
        }

        context.SaveChanges();
        transaction.Commit();
        return true;
    }

    /// <summary>Makes a token for a program.</summary>
    /// <returns>The token, which is nowhere kept; null where its role would be above its maker's.</returns>
    public string? MakeToken(Caller maker, string name, MemberRole role, int days)
    {
        if (role > maker.Role || days is < 1 or > MostTokenDays)
        {
            return null;
        }

        string secret = Secret.Make();
        context.AccessTokens.Add(new AccessToken
        {
            Id = Guid.CreateVersion7(), PersonId = maker.Person, OrganizationId = maker.Organization, Name = name, Role = role,
            Digest = Secret.Digest(secret), ExpiresAt = clock.GetCurrentInstant() + Duration.FromDays(days),
        });
        context.SaveChanges();
        return secret;
    }

    /// <summary>Tokens that are valid: one's own, and those of all members for an owner.</summary>
    public IReadOnlyList<(AccessToken Token, string Maker)> Tokens(Caller caller)
    {
        Instant now = clock.GetCurrentInstant();
        return [.. context.AccessTokens.AsNoTracking().Where(t => t.OrganizationId == caller.Organization && t.RevokedAt == null
                && t.ExpiresAt > now && (t.PersonId == caller.Person || caller.Role == MemberRole.Owner))
            .Join(context.Users, t => t.PersonId, p => p.Id, (t, p) => new { t, p.UserName }).AsEnumerable()
            .OrderBy(x => x.t.ExpiresAt).Select(x => (x.t, x.UserName ?? ""))];
    }

    /// <summary>Ends a token: one's own, or any of the organization for an owner.</summary>
    public void Revoke(Caller caller, Guid token)
    {
        Instant now = clock.GetCurrentInstant();
        context.AccessTokens.Where(t => t.Id == token && t.OrganizationId == caller.Organization
                && (t.PersonId == caller.Person || caller.Role == MemberRole.Owner))
            .ExecuteUpdate(t => t.SetProperty(x => x.RevokedAt, now));
    }
}
