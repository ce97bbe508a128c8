using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.App.Tests.Outbox;

/// <summary>A window of the page on a device, with what waits there.</summary>
internal sealed class Window
{
    public Window(FakeDevice on, FakeServer server, FakeClock clock)
    {
        Microsoft.JSInterop.IJSRuntime scripts = on.Window();
        Device device = new(scripts);
        Preferences preferences = new(device);
        Shelf = new DeviceShelf(scripts);
        Unsent = new Unsent(
            Shelf, new ServerLink(new HttpClient(server, disposeHandler: false) { BaseAddress = new Uri("http://server.example/") },
                preferences), preferences, clock, device);
    }

    public DeviceShelf Shelf { get; }

    public Unsent Unsent { get; }

    public static Guid Site { get; } = Guid.Parse("01900000-0000-7000-8000-000000000001");

    public static string Address(Guid visit) => $"api/sites/{Site}/visits/{visit}";

    /// <summary>A visit that says a text.</summary>
    public static string Visit(string notes) => System.Text.Json.JsonSerializer
        .Serialize(new VisitValue("Gate", new LocalDateTime(2026, 7, 14, 15, 20), "", "", 8.9, [], null, notes), Json.Compact);

    public Task Record(Guid visit, string notes, string? version = null) =>
        Unsent.Record(visit, Site, "visit", Address(visit), "application/json", Visit(notes), version);

    public Task KeepOnly(Guid visit, string notes) =>
        Unsent.KeepOnly(visit, Site, "visit", Address(visit), "application/json", Visit(notes), null);

    public Task Photo(Guid photo, Guid visit, byte[] bytes) =>
        Unsent.RecordPhoto(photo, Site, $"{Address(visit)}/photos/{photo}", "image/jpeg", bytes, visit);
}
