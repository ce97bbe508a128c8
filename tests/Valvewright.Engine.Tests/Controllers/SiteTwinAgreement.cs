using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using Valvewright.Tests;
using Valvewright.Tests.Twin;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>The emulator in true time against the second-by-second imitation, on drawn circumstances in ten time zones.</summary>
public sealed class SiteTwinAgreement
{
    [Theory]
    [InlineData(2_000, 0, 26)]
    [InlineData(60, 5_000_000, 250)]
    public void Controllers_on_sites_agree(int cases, int firstSeed, int hours)
    {
        int events = 0;
        for (int seed = firstSeed; seed < firstSeed + Cases.Of(cases); seed++)
        {
            RandomControllers draw = new(seed);
            RandomCircumstances around = new(draw);
            Profile profile = draw.Profile();
            LocalDate date = around.Date();
            Settings settings = draw.Settings(profile, date);
            LocalDateTime keyedIn = date + draw.Pick(LocalTime.Midnight, LocalTime.Noon, new LocalTime(1, 30), new LocalTime(20, 0));
            Circumstances told = around.Draw(profile, settings, keyedIn, hours);
            LocalDate last = keyedIn.PlusHours(hours).Date;
            LocalDate first = draw.Pick(date, date.PlusDays(1), last);

            SiteTimeline fast = SiteEmulator.Run(profile, settings, told, around.Zone, first, last);
            TwinWorldOnSite world = new(profile, settings, told, around.Zone);
            Timeline slow = new SlowTwin(profile, world).Run(world.CountAtStartOf(first), world.CountAtStartOf(last.PlusDays(1)));
            SiteTimeline expected = InTrueTime(slow, world);
            if (!fast.Equals(expected))
            {
                Assert.Fail(Explain(seed, profile, settings, told, around.Zone, fast, expected));
            }

            events += fast.Runs.Count + fast.LostStarts.Count;
        }

        Assert.True(events > cases, $"only {events} events were compared");
    }

    private static SiteTimeline InTrueTime(Timeline slow, TwinWorldOnSite world)
    {
        SiteRun Convert(StationRun run) => new(
            run.Station, run.Program, run.Start, world.TrueTime(run.Opens), world.TrueTime(run.Closes),
            LocalDateTime.FromDateTime(world.Display(run.Opens)));
        return new SiteTimeline(
            slow.Runs.Select(Convert).ToListOf(),
            slow.CarriedIn.Select(Convert).ToListOf(),
            slow.LostStarts.Select(s => new SiteLostStart(s.Program, world.TrueTime(s.DueAt), s.Reason)).ToListOf(),
            slow.PumpRuns.Select(p => new Interval(world.TrueTime(p.On), world.TrueTime(p.Off))).ToListOf());
    }

    private static string Explain(
        int seed, Profile profile, Settings settings, Circumstances told, DateTimeZone zone, SiteTimeline fast, SiteTimeline slow) =>
        $"""
        Seed {seed}, {zone.Id}.
        {System.Text.Json.JsonSerializer.Serialize(profile, Json.Compact)}
        {System.Text.Json.JsonSerializer.Serialize(settings, Json.Compact)}
        {System.Text.Json.JsonSerializer.Serialize(told, Json.Compact)}
        {Differences.First("runs", fast.Runs, slow.Runs)}
        {Differences.First("carried in", fast.CarriedIn, slow.CarriedIn)}
        {Differences.First("lost", fast.LostStarts, slow.LostStarts)}
        {Differences.First("pump", fast.PumpRuns, slow.PumpRuns)}
        """;
}
