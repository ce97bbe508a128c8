using Valvewright.Engine.Budget;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Weather;
using Valvewright.Files.Timelines;

namespace Valvewright.Work.Accounts;

/// <summary>What an account is listed first for.</summary>
public enum AccountRemark
{
    /// <summary>The meter shows far more than the settings as left explain.</summary>
    MeteredFarAbove,

    /// <summary>Metered, expected or planned water is more than the water budget.</summary>
    OverBudget,

    /// <summary>No settings and no meter reading were recorded.</summary>
    NothingRecorded,
}

/// <summary>A site's water of a calendar year, m3. What is not known is null, never a guess.</summary>
public sealed record SiteAccount
{
    /// <summary>So much over the expected water is far above it: twice the 15% by which the flows of a survey may be off.</summary>
    public const double FarAbove = 1.3;

    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

    /// <summary>Its units, for everything a person sees.</summary>
    public UnitSystem Units { get; init; }

    /// <summary>The plan's water from 1 January to 31 December.</summary>
    public double? PlannedM3 { get; init; }

    /// <summary>Water of the settings as visits left them, as far as they are known.</summary>
    public double? ExpectedM3 { get; init; }

    /// <summary>The part of the year up to the date asked for, over all controllers, whose settings are known: 0 to 1.</summary>
    public double KnownShare { get; init; }

    /// <summary>Controllers that water something.</summary>
    public int Controllers { get; init; }

    /// <summary>Those of them whose settings are known for a part of the year at least.</summary>
    public int ControllersKnown { get; init; }

    /// <summary>What the meters showed from the first to the last reading within the year.</summary>
    public double? MeteredM3 { get; init; }

    /// <summary>Supplies that water something.</summary>
    public int Supplies { get; init; }

    /// <summary>Each supply's meter, where it was read.</summary>
    public ListOf<MeterAccount> Meters { get; init; } = [];

    /// <summary>Minimum water of the year: perfect foresight, evenly watered.</summary>
    public double? MinimumM3 { get; init; }

    /// <summary>The water budget: MAWA for the mean ETo of the weather record.</summary>
    public double? BudgetM3 { get; init; }

    /// <summary>Why the account is listed first; empty for most.</summary>
    public ListOf<AccountRemark> Flags { get; init; } = [];

    /// <summary>Makes the account of a year.</summary>
    /// <param name="known">What is known of the site.</param>
    /// <param name="year">The calendar year.</param>
    /// <param name="today">The last date on which anything can have been recorded.</param>
    /// <param name="use">What the landscape is for.</param>
    public static SiteAccount Of(WaterKnown known, int year, LocalDate today, LandscapeUse use)
    {
        ArgumentNullException.ThrowIfNull(known);
        Site site = known.Site;
        (LocalDate first, LocalDate last) = (new(year, 1, 1), new(year, 12, 31));
        LocalDate until = LocalDate.Min(last, today);
        WaterAsLeft left = WaterAsLeft.Of(site, known.Left, first, until);
        ListOf<MeterAccount> meters = known.Meters
            .Select(m => MeterAccount.Of(site, m, left, first, until)).OfType<MeterAccount>().ToListOf();
        SiteAccount account = new()
        {
            Site = site.Name,
            Units = site.Units,
            PlannedM3 = known.Plan is { } plan ? Planned(SiteWaterings.Of(site, plan, first, last)) : null,
            ExpectedM3 = left.ControllersKnown > 0 ? left.KnownM3 : null,
            KnownShare = left.KnownShare,
            Controllers = left.Controllers,
            ControllersKnown = left.ControllersKnown,
            MeteredM3 = meters.Any(m => m.UsedM3 is not null) ? meters.Sum(m => m.UsedM3 ?? 0) : null,
            Supplies = site.Controllers.Where(c => c.Zones.Count > 0).Select(c => c.Supply).Distinct().Count(),
            Meters = meters,
            MinimumM3 = known.Years is null ? null : Minimum(known.Years, first, last),
            BudgetM3 = known.Years is null ? null : WaterBudget.Of(known.Years, use).AllowanceL / 1000,
        };
        return account with { Flags = FlagsOf(account).ToListOf() };
    }

    private static double Planned(SiteWaterings year) => year.Waterings.Where(w => !w.CarriedIn).Sum(w => w.Litres) / 1000;

    private static double? Minimum(SiteYears years, LocalDate first, LocalDate last)
    {
        Climate all = years.Built.Climate;
        return all.First <= first && all.Last >= last
            ? Rulers.MinimumM3Of(years.AsOf(first).Site, new YearSpan(first, last).Of(all)) : null;
    }

    private static IEnumerable<AccountRemark> FlagsOf(SiteAccount account)
    {
        if (account.Meters.Any(m => m.IsFarAbove))
        {
            yield return AccountRemark.MeteredFarAbove;
        }

        if (new[] { account.PlannedM3, account.ExpectedM3, account.MeteredM3 }.Max() > account.BudgetM3)
        {
            yield return AccountRemark.OverBudget;
        }

        if (account.ExpectedM3 is null && account.MeteredM3 is null)
        {
            yield return AccountRemark.NothingRecorded;
        }
    }
}

/// <summary>What a supply's meter showed within a year.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="From">Date of the first reading.</param>
/// <param name="To">Date of the last reading.</param>
/// <param name="UsedM3">What went through it; null where a reading is lower than the one before: a new meter, or a misreading.</param>
/// <param name="ExpectedM3">What the settings as left explain between these readings; null where not all are known.</param>
public sealed record MeterAccount(string Supply, LocalDate From, LocalDate To, double? UsedM3, double? ExpectedM3)
{
    /// <summary>Whether it shows far more than the settings as left explain.</summary>
    public bool IsFarAbove => UsedM3 > (SiteAccount.FarAbove * ExpectedM3) + (2 * new MeterKnowledge().ResolutionM3);

    /// <summary>The account of a meter; null where it was not read twice within the year.</summary>
    internal static MeterAccount? Of(Site site, ReadingsOfMeter meter, WaterAsLeft left, LocalDate first, LocalDate until)
    {
        (LocalDateTime At, double M3)[] read = [.. meter.Readings.Where(r => r.At.Date >= first && r.At.Date <= until).OrderBy(r => r.At)];
        if (read.Length < 2)
        {
            return null;
        }

        bool rises = read.Zip(read.Skip(1)).All(p => p.Second.M3 >= p.First.M3);
        Instant from = read[0].At.InZoneLeniently(site.Zone()).ToInstant(), to = read[^1].At.InZoneLeniently(site.Zone()).ToInstant();
        return new MeterAccount(
            meter.Supply, read[0].At.Date, read[^1].At.Date, rises ? read[^1].M3 - read[0].M3 : null, left.Between(meter.Supply, from, to));
    }
}
