using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>Signing in and out, and becoming a member.</summary>
internal sealed class SigningIn(PeopleContext context, PersonManager people, SignInManager<Person> signIns, IClock clock)
{
    private static readonly Person NoOne = new();

    /// <summary>The digest of a password that no one has: where there is no such person, checking takes as long.</summary>
    private static readonly string DigestOfNoOne = new PasswordHasher<Person>().HashPassword(NoOne, Secret.Make());

    /// <summary>Signs a person in; false where name or password are wrong, the person is locked out or belongs to no organization: it
    /// does not say which.</summary>
    public async Task<bool> In(string name, string password)
    {
        if (await Known(name, password) is not { } person
            || await context.Memberships.AsNoTracking().Where(m => m.PersonId == person.Id).OrderBy(m => m.OrganizationId)
                .FirstOrDefaultAsync() is not { } membership)
        {
            return false;
        }

        await Begin(person, membership.OrganizationId);
        return true;
    }

    /// <summary>Goes on for another organization of the same person; false where they are no member of it.</summary>
    public async Task<bool> For(Caller caller, Guid organization)
    {
        if (await people.FindByIdAsync(caller.Person.ToString()) is not { } person
            || !await context.Memberships.AnyAsync(m => m.PersonId == caller.Person && m.OrganizationId == organization))
        {
            return false;
        }

        await Begin(person, organization);
        return true;
    }

    /// <summary>Signs this device out.</summary>
    public static Task Out(HttpContext http) => http.SignOutAsync(IdentityConstants.ApplicationScheme);

    /// <summary>Ends every sign-in of a person, on all devices.</summary>
    public async Task OutEverywhere(Caller caller) =>
        await people.UpdateSecurityStampAsync((await people.FindByIdAsync(caller.Person.ToString()))!);

    /// <summary>Sets another password, which ends every other sign-in of the person.</summary>
    /// <returns>What the framework has against it; null where the password they have was wrong.</returns>
    public async Task<IdentityResult?> Change(Caller caller, string now, string next)
    {
        if (await Known(caller.Name, now) is not { } person)
        {
            return null;
        }

        IdentityResult result = await people.ChangePasswordAsync(person, now, next);
        if (result.Succeeded)
        {
            await Begin(person, caller.Organization);
        }

        return result;
    }

    /// <summary>An invitation that can still be used; null where there is none.</summary>
    public Task<Invitation?> Invited(string secret)
    {
        string digest = Secret.Digest(secret);
        Instant now = clock.GetCurrentInstant();
        return context.Invitations.AsNoTracking().SingleOrDefaultAsync(i => i.Digest == digest && i.UsedAt == null && i.ExpiresAt > now);
    }

    /// <summary>Uses an invitation up, and signs the person in.</summary>
    /// <returns>Null where it can't be used, or the name is another person's; else what the framework has against it.</returns>
    public async Task<IdentityResult?> Accept(Invitation invitation, string name, string password)
    {
        // The same rules for a new person and one who is there: what is said does not tell which of them it is.
        foreach (IPasswordValidator<Person> rule in people.PasswordValidators)
        {
            if (await rule.ValidateAsync(people, NoOne, password) is { Succeeded: false } broken)
            {
                return broken;
            }
        }

        Person? known = invitation.PersonId is null ? await people.FindByNameAsync(name) : null;
        if (known is not null && await Known(name, password) is null)
        {
            return null;
        }

        using IDbContextTransaction transaction = await context.Database.BeginTransactionAsync();
        Instant now = clock.GetCurrentInstant();
        if (await context.Invitations.Where(i => i.Id == invitation.Id && i.UsedAt == null && i.ExpiresAt > now)
            .ExecuteUpdateAsync(i => i.SetProperty(x => x.UsedAt, now)) != 1)
        {
            return null;
        }

        Person person = known ?? (invitation.PersonId is { } id ? await people.FindByIdAsync(id.ToString())
            : new Person { Id = Guid.CreateVersion7(), UserName = name }) ?? NoOne;
        IdentityResult result = invitation.PersonId is not null ? await Renew(person, password)
            : known is null ? await people.CreateAsync(person, password) : IdentityResult.Success;
        if (!result.Succeeded)
        {
            return result;
        }

        if (invitation.PersonId is null)
        {
            await Join(person.Id, invitation);
        }

        await transaction.CommitAsync();
        await Begin(person, invitation.OrganizationId);
        return result;
    }

    private async Task Join(Guid person, Invitation invitation)
    {
        Membership? there = await context.Memberships.FindAsync(person, invitation.OrganizationId);
        if (there is null)
        {
            context.Memberships.Add(new Membership
                { PersonId = person, OrganizationId = invitation.OrganizationId, Role = invitation.Role });
        }
        else if (there.Role < invitation.Role)
        {
            there.Role = invitation.Role;
        }

        await context.SaveChangesAsync();
    }

    private async Task<IdentityResult> Renew(Person person, string password)
    {
        await people.RemovePasswordAsync(person);
        IdentityResult result = await people.AddPasswordAsync(person, password);
        await people.SetLockoutEndDateAsync(person, null);
        await people.ResetAccessFailedCountAsync(person);
        return result;
    }

    /// <summary>The person whose name and password these are. Every way to a wrong answer takes the time of one check.</summary>
    private async Task<Person?> Known(string name, string password)
    {
        Person? person = await people.FindByNameAsync(name);
        if (person is null || await people.IsLockedOutAsync(person))
        {
            people.PasswordHasher.VerifyHashedPassword(NoOne, DigestOfNoOne, password);
            return null;
        }

        SignInResult result = await signIns.CheckPasswordSignInAsync(person, password, lockoutOnFailure: true);
        return result.Succeeded ? person : null;
    }

    /// <summary>A sign-in of its own: whatever the browser brought along counts no more.</summary>
    private Task Begin(Person person, Guid organization) =>
        signIns.SignInWithClaimsAsync(person, isPersistent: true, [new Claim(Caller.OrganizationClaim, organization.ToString("D"))]);
}
