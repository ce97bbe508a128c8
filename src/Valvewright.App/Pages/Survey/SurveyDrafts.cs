using NodaTime;
using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.App.Shelf;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.Survey;

/// <summary>Unfinished surveys on the device, and how one is sent.</summary>
public sealed class SurveyDrafts(DeviceShelf shelf, ServerLink link, Unsent unsent, IClock clock)
{
    private const string Store = "drafts";

    /// <summary>Media type of a survey.</summary>
    public const string Yaml = "application/yaml";

    /// <summary>What records of surveys are called among those not sent.</summary>
    public const string Kind = "survey";

    /// <summary>The unfinished survey of a site, or of a new one where none is named.</summary>
    public Task<SurveyDraft?> FindAsync(Guid? site) => shelf.Get<SurveyDraft>(Store, Key(site));

    /// <summary>A survey of the site that waits to be sent; null where none does.</summary>
    public UnsentRecord? Waiting(Guid site) => unsent.Records.LastOrDefault(r => r.Site == site && r.Kind == Kind);

    /// <summary>Keeps an unfinished survey.</summary>
    public Task KeepAsync(SurveyDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return shelf.Put(Store, Key(draft.IsNew ? null : draft.Id), draft with { At = clock.GetCurrentInstant() });
    }

    /// <summary>Throws an unfinished survey away.</summary>
    public Task DiscardAsync(SurveyDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return shelf.Remove(Store, Key(draft.IsNew ? null : draft.Id));
    }

    /// <summary>Sends a survey; the draft goes when the server has it, or when it waits among what is not sent.</summary>
    public async Task<Reply<SiteView>> SendAsync(SurveyDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        Reply<SiteView> reply = await link.Put<SiteView>(Address(draft.Id), ServerLink.Body(draft.Text, Yaml), draft.Version);
        if (reply.IsUnreachable)
        {
            await unsent.Record(draft.Id, draft.Id, Kind, Address(draft.Id), Yaml, draft.Text, draft.Version);
        }

        if ((reply.IsDone || reply.IsUnreachable) && draft.Weather is { } weather)
        {
            // The weather file goes after the survey that names it.
            await unsent.Record(Ids.New(), draft.Id, "weather", $"api/sites/{draft.Id}/weather?name={Uri.EscapeDataString(weather.Name)}", weather.Type, weather.Text);
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

    /// <summary>A version as <c>If-Match</c> wants it.</summary>
    public static string Tag(long version) => $"\"{version}\"";

    private static string Address(Guid site) => $"api/sites/{site}";

    private static string Key(Guid? site) => site is { } id ? $"survey-{id}" : "survey-new";
}
