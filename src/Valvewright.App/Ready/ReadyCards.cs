using NodaTime;
using Valvewright.App.Pages.Cards;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;

namespace Valvewright.App.Ready;

/// <summary>
/// Makes the cards of every site that was brought to the device or opened, so that each is there at once when it is asked for where there
/// is no signal, also when it was never looked at before. In idle time, one controller after another.
/// </summary>
public sealed class ReadyCards(DeviceShelf shelf, SiteShelf sites, ReadyMaker maker, SheetMaker sheets, PageWords words,
    Preferences preferences, IClock clock, Device device)
{
    private readonly List<CarriedSite> wanted = [];
    private bool isAtWork;

    /// <summary>How long what a person has just asked for goes first.</summary>
    internal TimeSpan After { get; init; } = TimeSpan.FromSeconds(1.5);

    /// <summary>The work under way; done where there is none.</summary>
    internal Task Working { get; private set; } = Task.CompletedTask;

    /// <summary>Begins to watch which sites come to the device, and whether the person's language or the day changes.</summary>
    public void Watch()
    {
        sites.Held += Want;
        preferences.Changed += WantCurrent;
        device.Signal += _ => WantCurrent();
        WantCurrent();
    }

    /// <summary>Has the cards of a site made, unless they lie there as they should be.</summary>
    public void Want(CarriedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        wanted.RemoveAll(w => w.Id == site.Id);
        wanted.Add(site);
        if (!isAtWork)
        {
            Working = Work();
        }
    }

    /// <summary>Makes the cards of one site that are not on the device yet.</summary>
    /// <returns>How many were made.</returns>
    /// <exception cref="ShelfException">The device does not keep them.</exception>
    public async Task<int> Make(CarriedSite carried)
    {
        OpenedSite site = new(carried, words);
        Language language = preferences.Language;
        int made = 0;
        await sheets.LayAsync(site, language);
        foreach (ControllerPlan one in site.BestPlan?.Saved.Plan.Controllers ?? [])
        {
            await device.Tell("idle");
            OpenedPlan plan = site.BestPlan!;
            LocalDate day = CardAddress.UsualDate(site, plan, clock);
            if (CardFit.WhyNot(site.Site, plan.Saved.Plan, one.Controller, words) is not null
                || await shelf.ReadyCard(site.Id, language, one.Controller) is { } there && there.Version == carried.ETag
                    && there.Maker == ReadyMaker.Maker && there.Day == day)
            {
                continue;
            }

            ReadyCard card = await maker.Make(site, plan, one.Controller, day, language);
            if (language != preferences.Language || !await shelf.PutReady(site.Id, language, card, plan.Saved.Plan.Controllers.Count == 1))
            {
                break; // Another language was chosen, or another window has a newer version: what is made now would be of no use.
            }

            made++;
        }

        return made;
    }

    private void WantCurrent()
    {
        if (sites.Current is { } site)
        {
            Want(site);
        }
    }

    /// <summary>They are a comfort: where the device has no room for them, or a plan can't be read, the page says so where it is asked for
    /// it.</summary>
    private async Task Work()
    {
        isAtWork = true;
        try
        {
            // What a person has just asked for comes first.
            await Task.Delay(After);
            while (wanted.Count > 0)
            {
                CarriedSite next = wanted[^1];
                wanted.Remove(next);
                try
                {
                    await Make(next);
                }
                catch (Exception reason) when (reason is ShelfException or InvalidDataException or Microsoft.JSInterop.JSException)
                {
                    Console.WriteLine($"No cards of {next.Name} lie ready: {reason.Message}");
                }
            }
        }
        finally
        {
            isAtWork = false;
        }
    }
}
