using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using NodaTime;

namespace Valvewright.Server.People;

/// <summary>The framework's register of people, with the server's clock for how long an account is locked.</summary>
#pragma warning disable CA1812 // Made by the container.
internal sealed class PersonManager(
    IUserStore<Person> store, IOptions<IdentityOptions> options, IPasswordHasher<Person> hasher,
    IEnumerable<IUserValidator<Person>> people, IEnumerable<IPasswordValidator<Person>> passwords, ILookupNormalizer normalizer,
    IdentityErrorDescriber errors, IServiceProvider services, ILogger<UserManager<Person>> log, IClock clock)
    : UserManager<Person>(store, options, hasher, people, passwords, normalizer, errors, services, log)
#pragma warning restore CA1812
{
    public override async Task<bool> IsLockedOutAsync(Person user) =>
        await GetLockoutEndDateAsync(user) > clock.GetCurrentInstant().ToDateTimeOffset();

    public override async Task<IdentityResult> AccessFailedAsync(Person user)
    {
        IdentityResult result = await base.AccessFailedAsync(user);
        // The count begins again when the account is locked.
        return result.Succeeded && await GetAccessFailedCountAsync(user) == 0
            ? await SetLockoutEndDateAsync(user, clock.GetCurrentInstant().ToDateTimeOffset() + Options.Lockout.DefaultLockoutTimeSpan)
            : result;
    }
}
