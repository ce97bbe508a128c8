using NodaTime;
using Valvewright.Engine.Metering;
using Valvewright.Engine.Values;
using Xunit.Abstractions;

namespace Valvewright.Engine.Tests.Metering;

/// <summary>Figures on simulated years; docs/meter.md prints them.</summary>
public sealed class MeterCheckTests(ITestOutputHelper output)
{
    private const int Sites = 200;

    [Theory]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(91)]
    public void False_alarms_stay_under_one_in_ten_years(int between)
    {
        int alarms = 0;
        for (int seed = 1; seed <= Sites; seed++)
        {
            SimulatedSite site = new(seed, between);
            alarms += site.Judge(site.Readings()).Count(i => i.IsAlarm);
        }

        output.WriteLine($"{between} days: {alarms / (double)Sites:0.000} false alarms in ten years");
        Assert.True(alarms < Sites, $"{alarms} in {Sites} times ten years");
    }

    [Theory]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(91)]
    public void A_leak_of_2_percent_of_a_zones_flow_is_found_within_two_visits(int between)
    {
        (double found, double days, double dated) = Search(between, (site, day, zone) =>
        {
            for (int d = day; d < SimulatedSite.DayCount; d++) site.Add(d, 0.02 * site.FlowLpm(zone) * 1440 / 1000);
        });
        output.WriteLine($"leak, {between} days: {found:0.000} found in two visits, mean {days:0} days, {dated:0.000} with the kind named");
        Assert.True(found >= 0.95, $"{found:0.000}");
    }

    [Theory]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(91)]
    public void A_valve_that_sticks_open_once_a_month_is_found_within_two_visits(int between)
    {
        // It stays open from a run until the controller closes it again at its next run, up to four days later.
        (double found, double days, _) = Search(between, (site, day, zone) =>
        {
            for (int d = day + site.Draws.Below(30); d < SimulatedSite.DayCount; d += 30)
            {
                while (d < SimulatedSite.DayCount && site.Minutes(d, zone) <= 0) d++;
                for (int on = d; on < SimulatedSite.DayCount && (on == d || site.Minutes(on, zone) <= 0) && on < d + 4; on++) site
                    .Add(on, site.FlowLpm(zone) * 1440 / 1000);
            }
        });
        output.WriteLine($"sticks open, {between} days: {found:0.000} found in two visits, mean {days:0} days");
        Assert.True(found >= 0.95, $"{found:0.000}");
    }

    /// <summary>A valve that fails to open once a month takes one run away: seen only where that run is a large part of the use.</summary>
    [Fact]
    public void A_run_that_fails_once_a_month_is_mostly_below_what_a_meter_can_show()
    {
        (double found, _, _) = Search(30, (site, day, zone) =>
        {
            for (int d = day + site.Draws.Below(30); d < SimulatedSite.DayCount; d += 30)
            {
                while (d < SimulatedSite.DayCount && site.Minutes(d, zone) <= 0) d++;
                if (d < SimulatedSite.DayCount) site.Add(d, -site.FlowLpm(zone) * site.Minutes(d, zone) / 1000);
            }
        });
        output.WriteLine($"sticks shut, 30 days: {found:0.000} found in two visits");
        Assert.InRange(found, 0, 0.9);
    }

    /// <summary>A fitting that leaks 2% of a zone's flow only while the zone runs hides in the scatter of pressure and meter.</summary>
    [Fact]
    public void Two_percent_more_while_a_zone_runs_is_below_what_a_meter_can_show()
    {
        (double found, _, _) = Search(30, (site, day, zone) =>
        {
            for (int d = day; d < SimulatedSite.DayCount; d++) site.Add(d, 0.02 * site.FlowLpm(zone) * site.Minutes(d, zone) / 1000);
        });
        output.WriteLine($"2% while running, 30 days: {found:0.000} found in two visits");
        Assert.InRange(found, 0, 0.5);
    }

    [Theory]
    [InlineData(30)]
    [InlineData(91)]
    public void A_misread_meter_is_found_and_named(int between)
    {
        int made = 0, found = 0, named = 0, all = 0, allFound = 0, felt = 0, feltFound = 0, small = 0;
        for (int seed = 1; seed <= Sites; seed++)
        {
            SimulatedSite site = new(seed, between);
            ListOf<MeterReading> readings = site.Readings();
            int wrong = 3 + site.Draws.Below(readings.Count - 5);
            double misread = Misread(readings[wrong].M3, site.Draws);
            double use = Math.Max(0.5, readings[wrong].M3 - readings[wrong - 1].M3);
            ListOf<MeterInterval> judged = site.Judge(readings.Select((r, i) => i == wrong ? r with { M3 = misread } : r).ToListOf());
            bool seen = judged[wrong - 1].IsAlarm || judged[wrong].IsAlarm;
            all++;
            allFound += seen ? 1 : 0;
            double off = Math.Abs(misread - readings[wrong].M3);
            small += off < 0.1 ? 1 : 0;
            felt += off >= 0.05 * use ? 1 : 0;
            feltFound += off >= 0.05 * use && seen ? 1 : 0;
            if (off < 0.2 * use) continue;
            made++;
            found += seen ? 1 : 0;
            named += judged[wrong].Verdict == MeterVerdict.Misread || judged[wrong - 1].Verdict == MeterVerdict.Misread ? 1 : 0;
        }

        output.WriteLine(
            $"misread, {between} days: {allFound / (double)all:0.000} of all ({small / (double)all:0.000} are off by less than 100 L), {feltFound / (double)felt:0.000} of those by 5% of the use or more, {found / (double)made:0.000} of those by 20% of the use or more, {named / (double)made:0.000} named");
        Assert.True(found >= 0.95 * made, $"{found} of {made}");
        Assert.True(feltFound >= 0.95 * felt, $"{feltFound} of {felt} by 5%");
        Assert.True(named >= 0.8 * made, $"{named} of {made} named");
    }

    /// <summary>With nothing running any use is a leak, and its date and rate are near the truth.</summary>
    [Fact]
    public void A_leak_has_a_rate_and_a_date()
    {
        SimulatedSite site = new(7, 30);
        for (int day = 1300; day < SimulatedSite.DayCount; day++) site.Add(day, 0.5);
        ListOf<MeterInterval> judged = site.Judge(site.Readings());
        MeterInterval leak = judged.First(i => i.Verdict == MeterVerdict.Leak);
        Assert.True(leak.From <= site.At(1300) + Duration.FromDays(60));
        Assert.Equal(500 / 24.0, leak.LitersPerHour, 3.0);
        Assert.InRange((leak.Since!.Value.Start - site.At(1300)).TotalDays, -12, 12);
        Assert.True(leak.Since.Value.Start <= leak.Since.Value.End);
    }

    [Fact]
    public void Readings_out_of_order_are_refused() =>
        Assert.Throws<ArgumentException>(() => MeterCheck.Judge(
            [new MeterReading(Instant.FromUnixTimeSeconds(5), 1), new MeterReading(Instant.FromUnixTimeSeconds(5), 2)], (_, _) =>
                0, new MeterKnowledge()));

    private static (double Found, double Days, double Named) Search(int between, Action<SimulatedSite, int, int> fault)
    {
        int found = 0, named = 0;
        double days = 0;
        for (int seed = 1; seed <= Sites; seed++)
        {
            SimulatedSite site = new(seed, between);

            // A fault of the third to eighth year, at a time when the site is watered.
            int day = 731 + site.Draws.Below(2000);
            while (Enumerable.Range(0, site.Zones).All(z => site.Minutes(day, z) <= 0)) day++;
            fault(site, day, site.Draws.Below(site.Zones));
            ListOf<MeterInterval> judged = site.Judge(site.Readings());
            int first = site.Visits.TakeWhile(v => v <= day).Count() - 1;
            MeterInterval? alarm = judged.Skip(first).Take(2).FirstOrDefault(i => i.IsAlarm);
            if (alarm is null) continue;
            found++;
            days += (alarm.To - site.At(day)).TotalDays;
            named += judged.Skip(first).Take(3).Any(i => i.Verdict == MeterVerdict.Leak) ? 1 : 0;
        }

        return (found / (double)Sites, days / Math.Max(1, found), named / (double)Sites);
    }

    /// <summary>One digit wrong, or two neighbors swapped.</summary>
    private static double Misread(double m3, SeededDraws draws)
    {
        char[] digits = m3.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture).ToCharArray();
        for (int attempt = 0; attempt < 50; attempt++)
        {
            char[] wrong = [.. digits];
            int at = draws.Below(wrong.Length);
            if (!char.IsAsciiDigit(wrong[at])) continue;
            if (draws.Unit() < 0.5 && at + 1 < wrong.Length && char.IsAsciiDigit(wrong[at + 1])) (wrong[at], wrong[at + 1]) =
                (wrong[at + 1], wrong[at]);
            else wrong[at] = (char)('0' + draws.Below(10));
            double value = double.Parse(wrong, System.Globalization.CultureInfo.InvariantCulture);
            if (value != m3) return value;
        }

        return m3 + 100;
    }
}
