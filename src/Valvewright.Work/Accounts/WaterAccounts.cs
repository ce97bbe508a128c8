using Valvewright.Engine.Budget;

namespace Valvewright.Work.Accounts;

/// <summary>The water of several sites in a calendar year.</summary>
/// <param name="Year">The year.</param>
/// <param name="Until">The last date that counts as past: the year's last day, or the date asked for.</param>
/// <param name="Sites">One account a site, those with flags first.</param>
public sealed record WaterAccounts(int Year, LocalDate Until, ListOf<SiteAccount> Sites)
{
    /// <summary>The plans' water.</summary>
    public SumOfSites Planned => SumOfSites.Of(Sites, s => s.PlannedM3);

    /// <summary>Water of the settings as left.</summary>
    public SumOfSites Expected => SumOfSites.Of(Sites, s => s.ExpectedM3);

    /// <summary>What the meters showed.</summary>
    public SumOfSites Metered => SumOfSites.Of(Sites, s => s.MeteredM3);

    /// <summary>Minimum water.</summary>
    public SumOfSites Minimum => SumOfSites.Of(Sites, s => s.MinimumM3);

    /// <summary>Water budgets.</summary>
    public SumOfSites Budget => SumOfSites.Of(Sites, s => s.BudgetM3);

    /// <summary>Makes the accounts.</summary>
    /// <param name="sites">What is known of each site.</param>
    /// <param name="year">The calendar year, not after today's.</param>
    /// <param name="today">The last date on which anything can have been recorded.</param>
    /// <param name="use">What the landscapes are for.</param>
    public static WaterAccounts Of(ListOf<WaterKnown> sites, int year, LocalDate today, LandscapeUse use = LandscapeUse.NonResidential) =>
        new(year, LocalDate.Min(new LocalDate(year, 12, 31), today), sites.Select(s => SiteAccount.Of(s, year, today, use))
            .OrderBy(a => a.Flags.Count > 0 ? (int)a.Flags[0] : int.MaxValue).ThenBy(a => a.Site, StringComparer.Ordinal).ToListOf());
}

/// <summary>A sum over the sites where a figure is known.</summary>
/// <param name="M3">The sum; null where it is known at no site.</param>
/// <param name="Sites">Sites in the sum.</param>
/// <param name="LeftOut">Sites where it is not known.</param>
public sealed record SumOfSites(double? M3, int Sites, int LeftOut)
{
    internal static SumOfSites Of(ListOf<SiteAccount> sites, Func<SiteAccount, double?> of)
    {
        double[] known = [.. sites.Select(of).OfType<double>()];
        return new SumOfSites(known.Length == 0 ? null : known.Sum(), known.Length, sites.Count - known.Length);
    }
}
