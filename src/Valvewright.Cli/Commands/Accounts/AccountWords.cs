using NodaTime.Text;
using Valvewright.Cli.Commands.Measured;
using Valvewright.Work.Accounts;

namespace Valvewright.Cli.Commands.Accounts;

/// <summary>What is to be said of a site's account: why it is listed first, and what is left out of it.</summary>
internal static class AccountWords
{
    /// <summary>Why it is listed first.</summary>
    public static IEnumerable<Sentence> Flags(SiteAccount site, FieldAmounts amounts, int year) => site.Flags.SelectMany(flag => flag switch
    {
        AccountRemark.MeteredFarAbove => site.Meters.Where(m => m.IsFarAbove).Select(m => (Sentence)
            $"METERED FAR ABOVE EXPECTED: {m.Supply}, {Iso(m.From)} to {Iso(m.To)}: {amounts.Volume(m.UsedM3!.Value)} {amounts
                .VolumeUnit}. The settings as left explain {amounts.Volume(m.ExpectedM3!.Value)} {amounts.VolumeUnit}."),
        AccountRemark.OverBudget => [OverBudget(site, amounts)],
        _ => [$"NOTHING RECORDED in {year}: no settings and no meter reading."],
    });

    /// <summary>What is left out, and why.</summary>
    public static IEnumerable<Sentence> Gaps(SiteAccount site, FieldAmounts amounts, WaterAccounts accounts)
    {
        if (site.PlannedM3 is null)
        {
            yield return "No saved plan.";
        }

        bool isRecorded = !site.Flags.Contains(AccountRemark.NothingRecorded);
        if (isRecorded && site.ControllersKnown < site.Controllers)
        {
            yield return $"Settings known at {site.ControllersKnown} of {site.Controllers} controllers.";
        }

        if (site.ControllersKnown > 0 && site.KnownShare < 1)
        {
            yield return $"Settings known for {amounts.Percent(site.KnownShare)} of the time to {Iso(accounts.Until)}.";
        }

        if (isRecorded && site.Meters.Count < site.Supplies)
        {
            yield return $"Meters read twice in {accounts.Year}: {site.Meters.Count} of {site.Supplies}.";
        }

        foreach (MeterAccount meter in site.Meters)
        {
            if (meter.UsedM3 is null)
            {
                yield return $"{meter.Supply}: a reading is lower than the one before. Its meter is left out.";
            }
            else if (meter.ExpectedM3 is null)
            {
                yield return $"{meter.Supply}: not all settings are known between the readings. The meter is not compared.";
            }
        }

        if (site.BudgetM3 is null)
        {
            yield return "No weather record that can be used: no minimum, no budget.";
        }
        else if (site.MinimumM3 is null)
        {
            yield return $"The weather record does not hold all of {accounts.Year}: no minimum.";
        }
    }

    private static Sentence OverBudget(SiteAccount site, FieldAmounts amounts)
    {
        string budget = amounts.Volume(site.BudgetM3!.Value), unit = amounts.VolumeUnit;
        return site switch
        {
            { MeteredM3: { } metered } when metered > site.BudgetM3 =>
                (Sentence)$"OVER BUDGET: metered {amounts.Volume(metered)} {unit}, budget {budget} {unit}.",
            { ExpectedM3: { } expected } when expected > site.BudgetM3 =>
                (Sentence)$"OVER BUDGET: expected {amounts.Volume(expected)} {unit}, budget {budget} {unit}.",
            _ => (Sentence)$"OVER BUDGET: planned {amounts.Volume(site.PlannedM3!.Value)} {unit}, budget {budget} {unit}.",
        };
    }

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
