using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.Survey;

/// <summary>Unfinished surveys on the device, and how one is sent.</summary>
public sealed class SurveyDrafts(
    DeviceShelf shelf, ServerLink link, Unsent unsent, IClock clock, SiteShelf sites, Preferences preferences) : IDisposable
{
    private const string Store = "drafts";
    private readonly Dictionary<string, Held<SurveyDraft>?> known = [];
    private readonly SemaphoreSlim turn = new(1);

    /// <summary>Media type of a survey.</summary>
    public const string Yaml = "application/yaml";

    /// <summary>What records of surveys are called among those not sent.</summary>
    public const string Kind = "survey";

    /// <summary>The unfinished survey of a site, or of a new one where none is named.</summary>
    public async Task<SurveyDraft?> FindAsync(Guid? site)
    {
        known[Key(site)] = await shelf.Hold<SurveyDraft>(Store, Key(site));
        return known[Key(site)]?.Value;
    }

    /// <summary>Whether there is an unfinished survey of a site.</summary>
    public async Task<bool> HasAsync(Guid site) => await shelf.Get<SurveyDraft>(Store, Key(site)) is not null;

    /// <summary>A survey of the site that waits to be sent; null where none does.</summary>
    public UnsentRecord? Waiting(Guid site) => unsent.Records.LastOrDefault(r => r.Site == site && r.Kind == Kind);

    /// <summary>Keeps an unfinished survey, where no other window of the device has written to it since it was last read or kept
    /// here.</summary>
    /// <param name="draft">The survey.</param>
    /// <param name="anyway">Keeps it in the place of whatever another window has written.</param>
    /// <returns>Whether it is kept.</returns>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public async Task<bool> KeepAsync(SurveyDraft draft, bool anyway = false)
    {
        string key = Key(draft.IsNew ? null : draft.Id);
        await turn.WaitAsync();
        try
        {
            while (true)
            {
                Held<SurveyDraft>? before = anyway ? await shelf.Hold<SurveyDraft>(Store, key) : known.GetValueOrDefault(key);
                (bool isDone, Held<SurveyDraft>? now) = await shelf.Swap(Store, key, before, draft with { At = clock.GetCurrentInstant() });
                if (isDone || !anyway)
                {
                    known[key] = isDone ? now : before;
                    return isDone;
                }
            }
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>Throws an unfinished survey away.</summary>
    public async Task DiscardAsync(SurveyDraft draft)
    {
        string key = Key(draft.IsNew ? null : draft.Id);
        await shelf.Remove(Store, key);
        known.Remove(key);
    }

    /// <summary>Sends a survey; the draft goes when the server has it, or when it waits among what is not sent.</summary>
    public async Task<Reply<SiteView>> SendAsync(SurveyDraft draft)
    {
        Reply<SiteView> reply = await link.Put<SiteView>(Address(draft.Id), ServerLink.Body(draft.Text, Yaml), draft.Version);
        if (reply.IsUnreachable)
        {
            if (draft.Version is null)
            {
                await OpenHereAsync(draft);
            }

            await unsent.Record(draft.Id, draft.Id, Kind, Address(draft.Id), Yaml, draft.Text, draft.Version);
        }

        if ((reply.IsDone || reply.IsUnreachable) && draft.Weather is { } weather)
        {
            // The weather file goes after the survey that names it.
            await unsent.Record(Ids.New(), draft.Id, "weather", $"api/sites/{draft.Id}/weather?name={Uri.EscapeDataString(weather.Name)}",
                weather.Type, weather.Text);
        }

        if (reply.IsDone && Waiting(draft.Id) is { } older)
        {
            // An older version that waited to be sent has been overtaken; sent now it would only come as a second person's.
            await unsent.Discard(older);
        }

        if (reply.IsDone || reply.IsUnreachable)
        {
            await DiscardAsync(draft);
        }

        return reply;
    }

    /// <summary>A new site can be opened on this device before the server has it.</summary>
    private async Task OpenHereAsync(SurveyDraft draft)
    {
        (string, string)? weather = draft.Weather is { } file ? (file.Name, file.Text)
            : unsent.Records.LastOrDefault(r => r.Site == draft.Id && r.Kind == "weather") is { Body: { } text } waiting
                ? (WeatherName(waiting.Address), text) : null;
        if (NotSentSite.Of(draft.Id, draft.Text, weather, preferences.By, clock.GetCurrentInstant()) is { } site)
        {
            await sites.KeepNotSentAsync(site);
        }
    }

    private static string WeatherName(string address) => Uri.UnescapeDataString(address[(address.LastIndexOf('=') + 1)..]);

    /// <inheritdoc/>
    public void Dispose() => turn.Dispose();

    /// <summary>A version as <c>If-Match</c> wants it.</summary>
    public static string Tag(long version) => $"\"{version}\"";

    /// <summary>What an unfinished survey is called among what is written in one window at a time.</summary>
    public static string Name(Guid? site) => Key(site);

    private static string Address(Guid site) => $"api/sites/{site}";

    private static string Key(Guid? site) => site is { } id ? $"survey-{id}" : "survey-new";
}
