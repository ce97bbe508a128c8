using Microsoft.EntityFrameworkCore;
using Valvewright.Store;

namespace Valvewright.Server.People;

/// <summary>
/// The sites of the organization that asks. A site of the store that no organization has claimed was there before people signed in: it
/// belongs to the first organization.
/// </summary>
internal sealed class OwnSites(PeopleContext context, SiteStore store, Guid organization)
{
    private Dictionary<Guid, Guid>? owners;
    private bool? isFirst;

    /// <summary>Whether the one who asks sees a site that is in the store; everyone sees all where people do not sign in.</summary>
    public static bool Sees(HttpContext http, Guid site) => http.Features.Get<OwnSites>() is not { } own || own.Includes(site);

    /// <summary>Whether a site may be made or changed under this id. A free one belongs to the organization from now on.</summary>
    /// <param name="http">Who asks.</param>
    /// <param name="site">The id.</param>
    /// <param name="mayBeNew">Whether a free id is taken.</param>
    public static bool Takes(HttpContext http, Guid site, bool mayBeNew) =>
        http.Features.Get<OwnSites>() is not { } own || own.Take(site, mayBeNew);

    /// <summary>Whether a site is this organization's, asked for one site.</summary>
    public bool Has(Guid site) => OwnerOf(site) is { } owner ? owner == organization : IsFirst() && store.VersionOf(site) is not null;

    /// <summary>Whether a site is this organization's, asked for many sites.</summary>
    public bool Includes(Guid site)
    {
        owners ??= context.SiteOwners.AsNoTracking().ToDictionary(s => s.SiteId, s => s.OrganizationId);
        return owners.TryGetValue(site, out Guid owner) ? owner == organization : IsFirst();
    }

    private bool Take(Guid site, bool mayBeNew)
    {
        if (Has(site))
        {
            return true;
        }

        if (!mayBeNew || OwnerOf(site) is not null || store.VersionOf(site) is not null)
        {
            return false;
        }

        try
        {
            context.SiteOwners.Add(new SiteOwner { SiteId = site, OrganizationId = organization });
            context.SaveChanges();
            return true;
        }
        catch (DbUpdateException)
        {
            // Another request was first with this id.
            context.ChangeTracker.Clear();
            return OwnerOf(site) == organization;
        }
    }

    private Guid? OwnerOf(Guid site) =>
        context.SiteOwners.AsNoTracking().Where(s => s.SiteId == site).Select(s => (Guid?)s.OrganizationId).SingleOrDefault();

    private bool IsFirst() => isFirst ??=
        context.Organizations.AsNoTracking().OrderBy(o => o.MadeAt).ThenBy(o => o.Id).Select(o => o.Id).First() == organization;
}
