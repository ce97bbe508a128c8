using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Files.Timelines;
using Valvewright.Tests;
using Valvewright.Work;
using Valvewright.Work.Accounts;

namespace Valvewright.Cli.Tests.Accounts;

/// <summary>Quarry Hill with settings as a visit would leave them: station 1 of Gate takes 18 L/min.</summary>
public sealed class WaterAccountsTests
{
    private const string Daily = "A: starts 5:00; days every day; stations 1=10\nB: no starts; no days; no run times\npercent 100";
    private static readonly LocalDate Today = new(2026, 11, 28);
    private static readonly Engine.Survey.Site Hill = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill")).Site!;

    private static readonly LeftByVisit[] March =
    [
        Left("Gate", new LocalDate(2026, 3, 1), Daily), Left("Gate", new LocalDate(2026, 3, 31), "off"),
        Left("Terrace", new LocalDate(2025, 10, 15), "off"),
    ];

    /// <summary>By hand: left at noon on 1 March, off at noon on 31 March. 30 mornings x 10 min x 18 L/min = 5400 L.</summary>
    [Fact]
    public void Expected_water_is_what_the_settings_as_left_let_through()
    {
        SiteAccount account = Account(March);
        Assert.Equal(30 * 10 * 18 / 1000.0, account.ExpectedM3!.Value, 9);

        // Gate from noon of 1 March, Terrace all year, to the end of 28 November: 332 days.
        Assert.Equal((332 - 59.5 + 332) / (2 * 332), account.KnownShare, 0.001);
        Assert.Equal((2, 2), (account.ControllersKnown, account.Controllers));
        Assert.Empty(account.Flags);
    }

    /// <summary>By hand: far above is more than 1.3 x 5.4 m3 + 2 x 0.01 m3 = 7.04 m3.</summary>
    [Theory]
    [InlineData(107.03, false)]
    [InlineData(107.05, true)]
    public void A_meter_is_compared_between_its_own_readings(double last, bool isFarAbove)
    {
        SiteAccount account = Account(March, (new LocalDate(2026, 3, 1), 100), (new LocalDate(2026, 3, 31), last));
        MeterAccount meter = Assert.Single(account.Meters);
        Assert.Equal(last - 100, account.MeteredM3!.Value, 9);
        Assert.Equal(5.4, meter.ExpectedM3!.Value, 9);
        Assert.Equal(isFarAbove, meter.IsFarAbove);
        Assert.Equal(isFarAbove ? [AccountRemark.MeteredFarAbove] : [], account.Flags);
    }

    [Fact]
    public void What_is_not_known_is_left_out_and_never_guessed()
    {
        // Before 1 March the settings of Gate are not known.
        SiteAccount early = Account(March, (new LocalDate(2026, 2, 1), 100), (new LocalDate(2026, 3, 31), 190));
        Assert.Null(early.Meters[0].ExpectedM3);
        Assert.Empty(early.Flags);

        // A reading that is lower than the one before: a new meter or a slip.
        SiteAccount slip = Account(
            March, (new LocalDate(2026, 3, 1), 100), (new LocalDate(2026, 3, 9), 1020), (new LocalDate(2026, 3, 31), 105));
        Assert.Null(slip.MeteredM3);

        // One reading within the year says nothing of the year.
        Assert.Empty(Account(March, (new LocalDate(2025, 12, 31), 100), (new LocalDate(2026, 3, 31), 105)).Meters);
        Assert.Equal([AccountRemark.NothingRecorded], Account([]).Flags);

        // A record of half the settings: the second program may water too.
        LeftByVisit half = Left("Gate", new LocalDate(2026, 3, 1), "A: starts 5:00; days every day; stations 1=10\npercent 100");
        Assert.False(half.IsKnown);
        Assert.Null(Account([half]).ExpectedM3);
    }

    /// <summary>A percent alone is the plan's programs at that percent: off but for a month, the plan's own water of that month.</summary>
    [Fact]
    public void A_percent_alone_stands_for_the_plan_at_that_percent()
    {
        Engine.Plans.Plan plan = PlanFiles.Read(
            Path.Combine(Checkout.Root, "tests", "Shared", "PlansByHand", "quarry-hill.json")).Saved!.Plan;
        LeftByVisit[] left =
        [
            LeftByVisit.OfPercent(plan, "Terrace", new LocalDate(2026, 6, 10).AtMidnight(), 100),
            LeftByVisit.OfPercent(plan, "Terrace", new LocalDate(2026, 7, 10).AtMidnight(), 0),
        ];
        SiteAccount account = SiteAccount.Of(new WaterKnown(Hill, plan, null, left.ToListOf(), []), 2026, Today,
            Engine.Budget.LandscapeUse.NonResidential);
        double month = SiteWaterings.Of(Hill, plan, new LocalDate(2026, 6, 10), new LocalDate(2026, 7, 9), "Terrace")
            .Waterings.Where(w => !w.CarriedIn).Sum(w => w.Litres) / 1000;
        Assert.True(month > 1);
        Assert.Equal(month, account.ExpectedM3!.Value, month * 0.01);
        Assert.Equal((1, 2), (account.ControllersKnown, account.Controllers));
    }

    /// <summary>The proof of a plan finds the minimum on its own way, year by year.</summary>
    [Fact]
    public void The_minimum_is_that_of_the_proof_and_is_left_out_where_the_weather_ends()
    {
        SiteYears years = SiteYears.Read(Hill);
        Engine.Plans.Plan plan = new(Hill.Name, []);
        int year = years.HeldBack[^1].First.Year;
        Engine.Proof.ProofReport proof = PlanProof.Of(new ProofRequest(years, plan, new LocalDate(year, 1, 1)));
        WaterKnown known = new(Hill, null, years, [], []);
        SiteAccount account = SiteAccount.Of(known, year, Today, Engine.Budget.LandscapeUse.NonResidential);
        Assert.Equal(
            proof.Zones.Sum(z => z.Years.Single(y => y.Year == year).MinimumMm * z.AreaM2) / 1000, account.MinimumM3!.Value, 6);
        Assert.Null(SiteAccount.Of(known, 2026, Today, Engine.Budget.LandscapeUse.NonResidential).MinimumM3);
    }

    [Fact]
    public void Sums_count_the_sites_that_are_in_them_and_exceptions_come_first()
    {
        WaterKnown quiet = Known(March), silent = Known([]) with { Site = Hill with { Name = "Another hill" } },
            loud = Known(March, (new LocalDate(2026, 3, 1), 100), (new LocalDate(2026, 3, 31), 190)) with
                { Site = Hill with { Name = "Zinc hill" } };
        WaterAccounts accounts = WaterAccounts.Of([silent, quiet, loud], 2026, Today);
        Assert.Equal(["Zinc hill", "Another hill", Hill.Name], accounts.Sites.Select(s => s.Site));
        Assert.Equal((2, 1), (accounts.Expected.Sites, accounts.Expected.LeftOut));
        Assert.Equal(2 * 5.4, accounts.Expected.M3!.Value, 9);
        Assert.Equal(new SumOfSites(null, 0, 3), accounts.Planned);
        Assert.Equal((90, 1, 2), (accounts.Metered.M3!.Value, accounts.Metered.Sites, accounts.Metered.LeftOut));
    }

    private static LeftByVisit Left(string controller, LocalDate on, string asLeft) =>
        LeftByVisit.Of(Hill, null, controller, on.At(LocalTime.Noon), asLeft)!;

    private static SiteAccount Account(LeftByVisit[] left, params (LocalDate On, double M3)[] readings) =>
        SiteAccount.Of(Known(left, readings), 2026, Today, Engine.Budget.LandscapeUse.NonResidential);

    private static WaterKnown Known(LeftByVisit[] left, params (LocalDate On, double M3)[] readings) => new(
        Hill, null, null, left.ToListOf(),
        readings.Length == 0 ? []
            : [new ReadingsOfMeter("Hillside tank", readings.Select(r => (r.On.At(LocalTime.Noon), r.M3)).ToListOf())]);
}
