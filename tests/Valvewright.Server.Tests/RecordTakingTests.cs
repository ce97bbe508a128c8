using NodaTime;
using NodaTime.Testing;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Server.Carrying;
using Valvewright.Store;
using Valvewright.Tests;

namespace Valvewright.Server.Tests;

/// <summary>A site carried as one file, and the records that it gives back.</summary>
public sealed class RecordTakingTests : IDisposable
{
    private static readonly VisitValue Value =
        new("Gate", new LocalDateTime(2026, 5, 14, 10, 42), "percent 60", "percent 100", 8.7, [], 1275, "");
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-take-").FullName;
    private readonly FakeClock clock = new(Instant.FromUtc(2026, 5, 14, 8, 0));
    private readonly Guid site = Ids.New();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Each_record_counts_once_however_often_the_file_comes()
    {
        using SiteStore store = Filled();
        RecordFile file = RecordFile.Read(
            Json.Write(new RecordFile(1, site, "Quarry Hill",
                [new VisitRecord(Ids.New(), "", Value), new VisitRecord(Ids.New(), "Ana", Value with { BatteryVolts = null })])));
        Assert.All(RecordTaking.TakeIn(store, file, clock), t => Assert.Equal(Outcome.Made, t.Outcome));
        Assert.All(RecordTaking.TakeIn(store, file, clock), t => Assert.Equal(Outcome.Same, t.Outcome));
        Assert.Equal(2, store.All<VisitValue>(site).Count);

        // Corrected at the office meanwhile: what the office has stays.
        Kept<VisitValue> kept = store.All<VisitValue>(site)[0];
        store.Put(site, kept.Id, kept.Value with { Notes = "Lid cracked." }, kept.Version, new Stamp("Office", clock.GetCurrentInstant()));
        RecordTaking.TakeIn(store, file, clock);
        Assert.Equal("Lid cracked.", store.Find<VisitValue>(site, kept.Id)!.Value.Notes);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("[1]")]
    [InlineData("not json")]
    [InlineData("""{"form":2,"site":"018f3b1c-8a00-7000-8000-000000000000","siteName":"x","records":[]}""")]
    [InlineData(
        """{"form":1,"site":"018f3b1c-8a00-7000-8000-000000000000","siteName":"x","records":[{"id":"018f3b1c-8a00-7000-8000-000000000001","by":""}]}""")]
    public void What_is_no_file_of_records_is_refused(string text) => Assert.Throws<FormatException>(() => RecordFile.Read(text));

    [Fact]
    public void What_cannot_be_kept_leaves_the_store_as_it_was()
    {
        using SiteStore store = Filled();
        Assert.Throws<FormatException>(
            () => RecordTaking.TakeIn(
                store, new RecordFile(1, site, "",
                    [new VisitRecord(Ids.New(), "", Value), new VisitRecord(Ids.New(), "", Value with { BatteryVolts = 99 })]), clock));
        Assert.Throws<FormatException>(() => RecordTaking
            .TakeIn(store, new RecordFile(1, site, "", [new VisitRecord(Ids.New(), "", Value), new VisitRecord(site, "", Value)]), clock));
        Assert.Throws<KeyNotFoundException>(
            () => RecordTaking.TakeIn(store, new RecordFile(1, Ids.New(), "", [new VisitRecord(Ids.New(), "", Value)]), clock));
        Assert.Empty(store.All<VisitValue>(site));
    }

    [Fact]
    public void The_file_holds_everything_and_asks_for_nothing()
    {
        using SiteStore store = Filled();
        string page = OneFile.Write(store, site, Language.Spanish, clock);
        Assert.Contains("<html lang=\"es\">", page, StringComparison.Ordinal);
        Assert.Contains("Todo como en la ficha", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("(?m)^(import|export) ", page);
        Assert.DoesNotMatch("src=|href=\"http|url\\((?!\"?data:)", page);
        Assert.Contains("default-src 'none'", page, StringComparison.Ordinal);
    }

    private SiteStore Filled()
    {
        string survey = File.ReadAllText(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml"));
        Site read = SurveyFiles.ParseApart(survey, "survey").Site!;
        SiteStore store = SiteStore.Open(Path.Combine(folder, "sites.db"));
        Stamp stamp = new("Demo", clock.GetCurrentInstant());
        store.PutSite(site, new SiteValue(read.Name, survey, SavedPlan.DigestOf(read)), null, stamp);
        Engine.Controllers.Program lawn =
            new('A', [new LocalTime(7, 30)], [new RunTime(1, 840)], new DaysOfWeek(Engine.Supply.PermittedTimes.EveryWeekday));
        Plan plan = new(read.Name,
            [new ControllerPlan(
                "Gate", new Settings([lawn]), [new Visit(new AnnualDate(3, 12), 60), new Visit(new AnnualDate(5, 14), 100)])]);
        SavedPlan saved = SavedPlan.Of(read, plan, new LocalDate(2026, 3, 1));
        store.Put(site, Ids.New(), new PlanValue(SavedPlan.DigestOf(read), saved.From, PlanFiles.Write(saved)), null, stamp);
        return store;
    }
}
