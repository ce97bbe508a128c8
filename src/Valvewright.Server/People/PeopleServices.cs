using System.Net;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Valvewright.Store;

namespace Valvewright.Server.People;

/// <summary>What sign-in is made of: the framework's parts, and how they are set here.</summary>
internal static class PeopleServices
{
    /// <summary>The limit of sign-ins and invitations from one address.</summary>
    public const string TriesPolicy = "tries";

    /// <summary>Tries of one address within a minute, for all that is keyed in by hand.</summary>
    public const int UsualTries = 30;

    /// <summary>The fewest signs of a password; length is worth more than kinds of signs (NIST SP 800-63B, 5.1.1).</summary>
    public const int LeastPasswordSigns = 12;

    private const int FewestDifferentSigns = 5;
    private const int MostWrongPasswords = 5;
    private const int MostTokenUses = 1200;
    private static readonly TimeSpan LockedFor = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan SignedInFor = TimeSpan.FromDays(30);

    /// <summary>Adds them.</summary>
    /// <param name="services">Where to.</param>
    /// <param name="store">The store that the file of people is next to.</param>
    /// <param name="isSecure">Whether browsers come over HTTPS: then cookies are sent over nothing else.</param>
    /// <param name="tries">Tries of one address within a minute.</param>
    public static void AddPeople(this IServiceCollection services, string store, bool isSecure, int tries)
    {
        PeopleFile.BringUpToDate(store);
        DbContextOptions<PeopleContext> options = PeopleFile.Options(store);
        services.AddSingleton<TimeProvider, ClockTime>().AddScoped(_ => new PeopleContext(options))
            .AddScoped<Register>().AddScoped<SigningIn>().AddSingleton(s => new Rights(s.GetRequiredService<SiteStore>(), isSecure));
        services.AddDataProtection().SetApplicationName("Valvewright").PersistKeysToFileSystem(new DirectoryInfo(
            PeopleFile.KeysOf(store)));
        services.AddHttpContextAccessor().AddAuthentication(IdentityConstants.ApplicationScheme)
            .AddCookie(IdentityConstants.ApplicationScheme, o =>
            {
                Set(o.Cookie, isSecure, "valvewright");
                o.ExpireTimeSpan = SignedInFor;
                o.SlidingExpiration = true;
                o.Events = new CookieAuthenticationEvents { OnValidatePrincipal = Validate };
            });
        services.AddIdentityCore<Person>(o =>
        {
            o.User.AllowedUserNameCharacters = "";
            o.Password = new PasswordOptions
            {
                RequiredLength = LeastPasswordSigns, RequiredUniqueChars = FewestDifferentSigns, RequireDigit = false,
                RequireLowercase = false, RequireUppercase = false, RequireNonAlphanumeric = false,
            };
            o.Lockout = new LockoutOptions { MaxFailedAccessAttempts = MostWrongPasswords, DefaultLockoutTimeSpan = LockedFor };
        }).AddUserManager<PersonManager>().AddEntityFrameworkStores<PeopleContext>().AddSignInManager();
        services.AddAntiforgery(o =>
        {
            Set(o.Cookie, isSecure, "valvewright-form");
            o.Cookie.SameSite = SameSiteMode.Strict;
            o.FormFieldName = "form";
            o.HeaderName = null;
            o.SuppressXFrameOptionsHeader = true;
        });
        services.AddRateLimiter(o =>
        {
            o.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            o.AddPolicy(TriesPolicy, http => HttpMethods.IsPost(http.Request.Method)
                ? Window(AddressOf(http), tries) : RateLimitPartition.GetNoLimiter(""));
            o.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(http => http.Request.Headers.Authorization.Count > 0
                ? Window(AddressOf(http), MostTokenUses) : RateLimitPartition.GetNoLimiter(""));
            o.OnRejected = (context, _) =>
            {
                context.HttpContext.Response.Headers.RetryAfter = "60";
                return ValueTask.CompletedTask;
            };
        });
    }

    /// <summary>Believes what proxies say of a request: of this machine, or of the addresses that were named.</summary>
    public static ForwardedHeadersOptions Proxies(IEnumerable<IPAddress> named)
    {
        ForwardedHeadersOptions forwarded = new()
            { ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto, ForwardLimit = 1 };
        forwarded.KnownProxies.Clear();
        forwarded.KnownIPNetworks.Clear();
        foreach (IPAddress proxy in named.DefaultIfEmpty(IPAddress.Loopback).Append(IPAddress.IPv6Loopback).Append(IPAddress.Loopback))
        {
            forwarded.KnownProxies.Add(proxy);
        }

        return forwarded;
    }

    private static string AddressOf(HttpContext http) => http.Connection.RemoteIpAddress?.ToString() ?? "";

    private static RateLimitPartition<string> Window(string address, int most) => RateLimitPartition.GetFixedWindowLimiter(address, _ =>
        new FixedWindowRateLimiterOptions { PermitLimit = most, Window = TimeSpan.FromMinutes(1), QueueLimit = 0 });

    /// <summary>Lax, not Strict: who follows a link in a letter to a site is still signed in. Nothing is changed by a GET, and the guard
    /// refuses what other sites send.</summary>
    private static void Set(CookieBuilder cookie, bool isSecure, string name)
    {
        cookie.Name = isSecure ? $"__Host-{name}" : name;
        cookie.HttpOnly = true;
        cookie.IsEssential = true;
        cookie.Path = "/";
        cookie.SameSite = SameSiteMode.Lax;
        cookie.SecurePolicy = isSecure ? CookieSecurePolicy.Always : CookieSecurePolicy.None;
    }

    /// <summary>A sign-in ends at once where the person has signed out everywhere, or has another password.</summary>
    private static async Task Validate(CookieValidatePrincipalContext context)
    {
        SignInManager<Person> signIns = context.HttpContext.RequestServices.GetRequiredService<SignInManager<Person>>();
        if (await signIns.ValidateSecurityStampAsync(context.Principal) is null)
        {
            context.RejectPrincipal();
        }
    }

    /// <summary>The server's clock, as the framework asks it.</summary>
    private sealed class ClockTime(IClock clock) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => clock.GetCurrentInstant().ToDateTimeOffset();
    }
}
