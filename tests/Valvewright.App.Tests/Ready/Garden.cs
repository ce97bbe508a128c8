using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.App.Person;
using Valvewright.App.Ready;
using Valvewright.App.Shelf;
using Valvewright.App.Tests.Outbox;
using Valvewright.App.Texts;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Ready;

/// <summary>A demo site on a device, with a plan whose visits change the percent, the programs, or nothing but the interval's
/// count.</summary>
internal sealed class Garden
{
    public const string Hostile = "<script>window.hit=1</script>";
    private static readonly Site Demo = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml")).Site!;
    private static readonly Guid Id = Guid.CreateVersion7();
    private static readonly Guid PlanId = Guid.CreateVersion7();

    /// <summary>Of a site in a zone.</summary>
    public Garden(string? zone = null, string? name = null, bool controllerIsKnown = true)
    {
        Site site = Demo with
        {
            Name = name ?? Demo.Name,
            TimeZone = zone ?? Demo.TimeZone,
            Controllers = Demo.Controllers
                .Select(c => c.Name == "Gate" ? c with { Name = controllerIsKnown ? "Gate" : "Another" } : c).ToListOf(),
        };
        Engine.Controllers.Program[] programs =
        [
            new('A', [new LocalTime(7, 30), new LocalTime(11, 15)], [new RunTime(1, 840)], new DaysOfWeek([IsoDayOfWeek.Monday])),
            new('B', [new LocalTime(5, 45)], [new RunTime(3, 5340)], new EveryNDays(11, new LocalDate(2026, 4, 9))),
        ];
        ListOf<Engine.Controllers.Program> summer =
            [programs[0], programs[1] with { Days = new EveryNDays(5, new LocalDate(2026, 6, 15)) }];
        ControllerPlan Of(string controller) => new(
            controller, new Settings([.. programs]),
            [new Visit(new AnnualDate(3, 1), 60), new Visit(new AnnualDate(6, 15), 100, summer),
                new Visit(new AnnualDate(9, 1), 80, [.. programs]), new Visit(new AnnualDate(11, 1), 0)]);
        Plan = new Plan(site.Name, [Of("Gate"), Of("Terrace")]);
        JsonElement saved = JsonSerializer.Deserialize<JsonElement>(PlanFiles.Write(SavedPlan.Of(site, Plan, new LocalDate(2026, 2, 1))));
        Stamp stamp = new("Ana", Instant.FromUtc(2026, 2, 1, 9, 0));
        PlanView view = new(PlanId, 1, stamp, new LocalDate(2026, 2, 1), true, saved, null, null);
        All = new CarryView(new SiteView(Id, 1, site.Name, "", stamp, "", site, [], null), null, null, [view], [], []);
        Shelf = new DeviceShelf(Device.Window());
        Clock = new FakeClock(Instant.FromUtc(2026, 4, 8, 12, 0));
        Device device = new(Device.Window());
        Preferences = new Preferences(device);
        Words = new PageWords(Preferences);
        ServiceProvider services = new ServiceCollection().AddSingleton(Words).AddSingleton(Preferences).AddSingleton<ILoggerFactory>(
            NullLoggerFactory.Instance).BuildServiceProvider();
        Sites = new SiteShelf(Shelf, new ServerLink(new HttpClient(), Preferences), Clock);
        Maker = new ReadyMaker(services, NullLoggerFactory.Instance);
        Sheets = new SheetMaker(Shelf, new Unsent(Shelf, new ServerLink(new HttpClient(), Preferences), Preferences, Clock, device));
        Cards = new ReadyCards(Shelf, Sites, Maker, Sheets, Words, Preferences, Clock, device) { After = TimeSpan.Zero };
    }

    public FakeDevice Device { get; } = new();

    public CarryView All { get; }

    public Plan Plan { get; }

    public DeviceShelf Shelf { get; }

    public FakeClock Clock { get; }

    public Preferences Preferences { get; }

    public PageWords Words { get; }

    public SiteShelf Sites { get; }

    public ReadyMaker Maker { get; }

    public SheetMaker Sheets { get; }

    public ReadyCards Cards { get; }

    public CarriedSite Version(string etag) => CarriedSite.Of(Id, etag, Clock.GetCurrentInstant(), All);

    public OpenedSite Opened() => new(Version("\"1\""), Words);

    /// <summary>Everything of that store on the device.</summary>
    public Dictionary<string, string> Kept(string store) =>
        Device.Kept.Where(k => k.Key.Store == store).ToDictionary(k => k.Key.Key, k => (string)k.Value);
}
