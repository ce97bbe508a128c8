namespace Valvewright.Tests.Browsing;

/// <summary>All pages there are, in the order in which one comes to them. What differs from site to site stands in braces in their
/// addresses.</summary>
internal static class Tour
{
    /// <summary>An address that leads nowhere.</summary>
    public const string NoSuchPage = "no-such-page";

    /// <summary>Addresses that need no site.</summary>
    public static readonly string[] Common = ["", "survey", "fleet", "settings", "unsent", NoSuchPage];

    /// <summary>Pages of a site.</summary>
    public static readonly string[] OfSite =
    [
        "sites/{site}", "sites/{site}/survey", "sites/{site}/needs", "sites/{site}/plan", "sites/{site}/what-if", "sites/{site}/found",
            "sites/{site}/proof", "sites/{site}/cards",
            "sites/{site}/cards?controller={controller}",
        "sites/{site}/year", "sites/{site}/timeline", "sites/{site}/reading", "sites/{site}/visits", "sites/{site}/visits/new",
            "sites/{site}/visits/{visit}",
        "sites/{site}/visits/{visit}/correct", "sites/{site}/history",
    ];

    /// <summary>All of them.</summary>
    public static IEnumerable<string> All => Common.Concat(OfSite);
}

/// <summary>A site that a tour is made of.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Plan">Its plan.</param>
/// <param name="Visit">One of its visits.</param>
/// <param name="Controller">One of its controllers.</param>
internal sealed record TourSite(Guid Id, Guid Plan, Guid Visit, string Controller)
{
    /// <summary>An address of the tour at this site.</summary>
    public string At(string path) =>
        path.Replace("{site}", Id.ToString(), StringComparison.Ordinal).Replace("{visit}", Visit.ToString(), StringComparison.Ordinal)
        .Replace("{plan}", Plan.ToString(), StringComparison.Ordinal)
            .Replace("{controller}", Uri.EscapeDataString(Controller), StringComparison.Ordinal);
}
