using Valvewright.Engine.Budget;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Balance;
using static Valvewright.Engine.Tests.Controllers.Words;

namespace Valvewright.Engine.Tests.Needs;

/// <summary>Schedules that cities and extension services print, followed through the engine.</summary>
public sealed class PublishedSchedulesTests
{
    private const double Inch = UsUnits.MmPerInch;

    /// <summary>City of Walla Walla (2009): 1.23 inches per week on 4 days: 12 minutes of spray at 1.5 in/h, 46 of rotors at 0.4 in/h. The
    /// rates are those of any flow and area that give them.</summary>
    [Theory]
    [InlineData(1.5, 12)]
    [InlineData(0.4, 46)]
    public void Walla_Wallas_minutes_follow_from_the_rate(double inchesPerHour, int minutes)
    {
        const double AreaM2 = 87;
        double rate = PrecipitationRate.FromFlowAndArea(PrecipitationRate.FlowLpm(inchesPerHour * Inch, AreaM2), AreaM2);
        Assert.Equal(minutes, 60 * 1.23 * Inch / 4 / rate, 0.5);
    }

    /// <summary>UC Statewide IPM Program: 42 minutes a week that run off after 14 are given as 3 times 14.</summary>
    [Fact]
    public void Runoff_after_14_minutes_makes_three_cycles_of_42()
    {
        Zone zone = Zones.Make();
        double beyond = zone.Emission.PrecipitationRateMmPerHour - 2;
        zone = zone with { Soil = zone.Soil with { IntakeMmPerHour = 2, SurfaceStorageMm = beyond * 14 / 60 } };
        int longest = CycleAndSoak.Of(zone).LongestCycleSeconds!.Value;
        Assert.Equal(14 * 60, longest, 1.0);
        Assert.Equal(3, Math.Ceiling(42.0 * 60 / (longest + 1)));
    }

    /// <summary>An ordinance's rule (Redwood City): at most 0.25 in at a time at no more than 0.75 in/h: 20 minutes.</summary>
    [Fact]
    public void A_quarter_inch_at_three_quarters_an_hour_is_twenty_minutes()
    {
        Zone zone = Zones.Make();
        zone = zone with
        {
            LargestDepthPerCycleMm = 0.25 * Inch,
            Emission = zone.Emission with { PrecipitationRateMmPerHour = 0.75 * Inch },
            Soil = zone.Soil with { IntakeMmPerHour = 100 },
        };
        Assert.Equal(1200, CycleAndSoak.Of(zone).LongestCycleSeconds!.Value, 1.0);
    }

    /// <summary>Washington State University, Colville: percent adjust April to October; a July of 100 minutes gives as
    /// many minutes.</summary>
    [Theory]
    [InlineData("April", 51)]
    [InlineData("May", 68)]
    [InlineData("June", 79)]
    [InlineData("July", 100)]
    [InlineData("August", 92)]
    [InlineData("September", 63)]
    [InlineData("October", 31)]
    public void Colvilles_percents_scale_a_July_run(string month, int percent)
    {
        Assert.NotEmpty(month);
        Settings settings = Settings(Program('A', "04:00", "1=100m", EveryDay)) with { PercentAdjust = percent };
        Assert.Equal(percent * 60, Assert.Single(Emulator.Run(Plain, settings, Monday, Monday).Runs).Seconds);
    }

    /// <summary>Vacaville, CA, reference evapotranspiration by month, inches: the twelve add up to 52.3, and so do their water
    /// budgets.</summary>
    [Fact]
    public void Vacavilles_months_add_up_to_its_year()
    {
        double[] months = [.7, 1.4, 3.2, 5.2, 6.3, 7.6, 8.2, 7.2, 5.5, 4.3, 1.6, 1.1];
        Assert.Equal(52.3, months.Sum(), 9);
        Assert.Equal(Mwelo.AllowanceL(52.3 * Inch, 100, 0.55), months.Sum(m => Mwelo.AllowanceL(m * Inch, 100, 0.55)), 6);
    }

    /// <summary>WaterSense draft list for controllers (EPA): at least 3 programs and 3 start times, even, odd, calendar-day and interval
    /// schedules to 14 days or more, a percent in one setting, run times of one minute and of more than an hour. A profile describes such a
    /// controller.</summary>
    [Fact]
    public void A_controller_of_the_WaterSense_list_has_a_profile() => Assert.Contains(GenericProfiles.All, p =>
        p.Programs >= 3 && p.StartTimesPerProgram >= 3 && Enum.GetValues<DayRuleKind>().All(p.DayRules.Contains)
        && p.LargestIntervalDays >= 14 && p.Percent.Least < p.Percent.Largest && p.RunTimeStepSeconds <= 60
        && p.RunTimeLimitSeconds > 3600);
}
