using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>The people of a store from its own machine, also while it is served.</summary>
public sealed class PeopleOffice : IDisposable
{
    private readonly string store;
    private readonly PeopleContext context;
    private readonly Register register;

    private PeopleOffice(string store, IClock clock)
    {
        PeopleFile.BringUpToDate(store);
        this.store = store;
        context = new PeopleContext(PeopleFile.Options(store));
        register = new Register(context, clock);
    }

    /// <summary>Names of the organizations.</summary>
    public IReadOnlyList<string> Organizations =>
        [.. context.Organizations.AsNoTracking().Select(o => o.Name).AsEnumerable().Order(StringComparer.Ordinal)];

    /// <summary>Members and those with a link that can still be used, by organization and name.</summary>
    public IReadOnlyList<PersonLine> Lines =>
    [
        .. register.Members(null).Select(m => new PersonLine(m.Person.UserName!, m.Organization.Name, m.Role, null))
            .Concat(context.Organizations.AsNoTracking().AsEnumerable().SelectMany(o => register.Invited(o.Id)
                .Select(i => new PersonLine(i.Name, o.Name, i.Role, i.ExpiresAt))))
            .OrderBy(l => l.Organization, StringComparer.Ordinal).ThenBy(l => l.Name, StringComparer.Ordinal),
    ];

    /// <summary>Opens the people of a store; the file is made where there is none.</summary>
    /// <exception cref="Store.Files.StoreException">It can't be read.</exception>
    public static PeopleOffice Open(string store, IClock clock)
    {
        ArgumentException.ThrowIfNullOrEmpty(store);
        ArgumentNullException.ThrowIfNull(clock);
        return new PeopleOffice(store, clock);
    }

    /// <summary>Whether a store has people who could sign in, or are invited.</summary>
    public static bool IsSetUp(string store)
    {
        ArgumentException.ThrowIfNullOrEmpty(store);
        if (!File.Exists(PeopleFile.Of(store)))
        {
            return false;
        }

        using PeopleOffice office = Open(store, SystemClock.Instance);
        return office.Lines.Count > 0;
    }

    /// <summary>Whether a text can be the name of a person or an organization.</summary>
    public static bool IsName(string text) => Forms.Fields.NameOf(text ?? "") == text;

    /// <summary>Invites a person; the organization is made where there is none.</summary>
    /// <returns>The address of the link below the server's; it is nowhere kept.</returns>
    public string Invite(string name, string organization, MemberRole role) =>
        Link(register.Invite(register.Organization(organization, make: true)!.Id, name, role, organization));

    /// <summary>A link by which a member sets a new password.</summary>
    /// <returns>The address below the server's.</returns>
    public string Renew(string name, string organization)
    {
        (Person person, Organization of, MemberRole role) = Member(name, organization);
        return Link(register.Invite(of.Id, name, role, organization, person.Id));
    }

    /// <summary>Ends a membership, with its tokens and sign-ins.</summary>
    /// <returns>False where the organization would be without an owner.</returns>
    public bool Remove(string name, string organization)
    {
        (Person person, Organization of, _) = Member(name, organization);
        return register.Set(of.Id, person.Id, null);
    }

    /// <summary>Lets go of the file.</summary>
    public void Dispose()
    {
        context.Dispose();
        PeopleFile.Release(store);
    }

    private static string Link(string secret) => $"/people/invitation/{secret}";

    private (Person Person, Organization Organization, MemberRole Role) Member(string name, string organization) =>
        register.Members(null).Single(m => m.Person.UserName == name && m.Organization.Name == organization);
}

/// <summary>A person in an organization.</summary>
/// <param name="Name">The name that records are signed with.</param>
/// <param name="Organization">The organization.</param>
/// <param name="Role">What they may do.</param>
/// <param name="InvitedUntil">Until when they can use their link; null for a member.</param>
public sealed record PersonLine(string Name, string Organization, MemberRole Role, Instant? InvitedUntil);
