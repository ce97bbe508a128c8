using Microsoft.AspNetCore.Identity;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>A person who can sign in. The user name is the name that records are signed with.</summary>
internal sealed class Person : IdentityUser<Guid>;

/// <summary>Who sites belong to.</summary>
internal sealed class Organization
{
    public Guid Id { get; set; }

    public string Name { get; set; } = "";

    public Instant MadeAt { get; set; }
}

/// <summary>A person's role in an organization.</summary>
internal sealed class Membership
{
    public Guid PersonId { get; set; }

    public Guid OrganizationId { get; set; }

    public MemberRole Role { get; set; }
}

/// <summary>A link that works once: to become a member, or to set a new password. Of the link only a digest is kept.</summary>
internal sealed class Invitation
{
    public Guid Id { get; set; }

    public Guid OrganizationId { get; set; }

    public MemberRole Role { get; set; }

    /// <summary>The name that the inviter knows the person by; the person may choose another.</summary>
    public string Name { get; set; } = "";

    /// <summary>The person who gets a new password; null where the link is to become a member.</summary>
    public Guid? PersonId { get; set; }

    public string Digest { get; set; } = "";

    public string By { get; set; } = "";

    public Instant ExpiresAt { get; set; }

    public Instant? UsedAt { get; set; }
}

/// <summary>Lets a program in, in the name of the member who made it. Of the token only a digest is kept.</summary>
internal sealed class AccessToken
{
    public Guid Id { get; set; }

    public Guid PersonId { get; set; }

    public Guid OrganizationId { get; set; }

    public string Name { get; set; } = "";

    public MemberRole Role { get; set; }

    public string Digest { get; set; } = "";

    public Instant ExpiresAt { get; set; }

    public Instant? RevokedAt { get; set; }
}

/// <summary>Which organization a site belongs to.</summary>
internal sealed class SiteOwner
{
    public Guid SiteId { get; set; }

    public Guid OrganizationId { get; set; }
}

/// <summary>Which form the tables have.</summary>
internal sealed class PeopleVersion
{
    public int Version { get; set; }
}
