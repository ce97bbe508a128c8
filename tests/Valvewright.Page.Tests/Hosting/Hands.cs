using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>Where the focus is.</summary>
/// <param name="Id">Names the element while the page lives.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Tag">Its kind of element.</param>
/// <param name="Kind">Its kind of field.</param>
/// <param name="Place">Its id in the page.</param>
/// <param name="IsSkip">Whether it leads past the frame.</param>
/// <param name="IsHead">Whether it is a heading.</param>
/// <param name="InMain">Whether it stands in the page itself, not in its frame.</param>
/// <param name="Value">What its field holds.</param>
/// <param name="IsOpen">Whether what it opens is open.</param>
/// <param name="IsTicked">Whether it is ticked.</param>
/// <param name="Left">Its box, in the page.</param>
/// <param name="Top">Its box, in the page.</param>
/// <param name="Right">Its box, in the page.</param>
/// <param name="Bottom">Its box, in the page.</param>
/// <param name="Faults">What is wrong with how the focus is shown.</param>
internal sealed record Stop(
    int Id, string Name, string Tag, string Kind, string Place, bool IsSkip, bool IsHead, bool InMain, string Value, bool IsOpen,
        bool IsTicked, double Left, double Top, double Right, double Bottom, string[] Faults);

/// <summary>Somebody who has a keyboard and nothing else, and minds where the focus goes.</summary>
internal sealed class Hands(Visitor visitor)
{
    private const int MostPresses = 700;

    /// <summary>A field of a date is gone through part by part.</summary>
    private const int MostPartsOfField = 7;

    private static readonly JsonSerializerOptions Options = new() { PropertyNameCaseInsensitive = true };
    private readonly SortedSet<string> faults = [];

    /// <summary>What was found wrong, with the address at which it was.</summary>
    public IReadOnlyCollection<string> Faults => faults;

    /// <summary>Where the focus is; null where it is nowhere.</summary>
    public async Task<Stop?> Now()
    {
        Stop? stop = JsonSerializer.Deserialize<Stop?>(
            await visitor.Page.EvaluateAsync<string>("() => JSON.stringify(window.atFocus())"), Options);
        foreach (string fault in stop?.Faults ?? [])
        {
            Blame(fault);
        }

        return stop;
    }

    /// <summary>Presses a key and says where the focus is then.</summary>
    public async Task<Stop?> Press(string key)
    {
        await visitor.Page.Keyboard.PressAsync(key);
        return await Now();
    }

    /// <summary>Types a text.</summary>
    public Task Type(string text) => visitor.Page.Keyboard.TypeAsync(text);

    /// <summary>Goes through the whole page and round to where it began, and sees that everything is come to, in the order in which it is
    /// read.</summary>
    public async Task Walk()
    {
        await visitor.Page.EvaluateAsync("() => window.noteRest()");
        HashSet<int> seen = [];
        int? first = null;
        Stop? before = null;
        bool isRound = false;
        for (int presses = 0, same = 0; presses < MostPresses; presses++)
        {
            Stop? now = await Press("Tab");
            isRound = isRound || now is null or { IsSkip: true };
            if (isRound && now?.Id == first && first is not null)
            {
                await MissNothing(seen);
                return;
            }

            same = now is not null && now.Id == before?.Id ? same + 1 : 0;
            if (now is not null && (same > MostPartsOfField || (same == 0 && !seen.Add(now.Id))))
            {
                Blame($"the focus does not get away from {now.Tag} \"{now.Name}\"");
                return;
            }

            // Reading goes down, or to the right; what lies above and not to the right was passed.
            if (before is { InMain: true } && now is { InMain: true } && now.Bottom <= before.Top && now.Left < before.Right - 1)
            {
                Blame($"after {before.Tag} \"{before.Name}\" the focus goes back up to {now.Tag} \"{now.Name}\"");
            }

            first ??= now?.Id;
            before = now;
        }

        Blame("the page has no end");
    }

    /// <summary>Goes on to what is called so.</summary>
    /// <param name="name">Its name, or how it begins.</param>
    /// <param name="tag">Its kind of element; null: any.</param>
    /// <param name="key">Tab, or Shift+Tab to go back.</param>
    public async Task<Stop> To(string name, string? tag = null, string key = "Tab")
    {
        HashSet<string> passed = [];
        for (int presses = 0; presses < MostPresses; presses++)
        {
            if (await Press(key) is { } stop)
            {
                if ((tag is null || stop.Tag == tag) && stop.Name.StartsWith(name, StringComparison.Ordinal))
                {
                    return stop;
                }

                passed.Add($"{stop.Tag} \"{stop.Name}\"");
            }
        }

        throw new InvalidOperationException(
            $"{visitor.Page.Url}: there is no way to {tag} \"{name}\", only to {string.Join(", ", passed)}");
    }

    /// <summary>Follows a link, and begins at the heading of the page that it leads to.</summary>
    public async Task Follow(string link, string heading, string key = "Tab")
    {
        await To(link, "a", key);
        await visitor.Page.Keyboard.PressAsync("Enter");
        await Arrive(heading);
    }

    /// <summary>Waits for a page and sees that the focus begins at its heading.</summary>
    public async Task Arrive(string heading)
    {
        await visitor.Page.Locator("main h1", new() { HasText = heading }).WaitForAsync();
        await visitor.Settle();
        Stop? at = await Now();
        if (at is not { IsHead: true } && at?.Place != "page")
        {
            Blame($"the page begins with the focus at {(at is null ? "nothing" : $"{at.Tag} \"{at.Name}\"")}, not at its heading");
        }
    }

    private async Task MissNothing(HashSet<int> seen)
    {
        foreach (JsonElement stop in JsonSerializer.Deserialize<JsonElement>(
            await visitor.Page.EvaluateAsync<string>("() => JSON.stringify(window.stops())")).EnumerateArray())
        {
            if (!seen.Contains(stop.GetProperty("id").GetInt32()))
            {
                Blame($"the focus does not come to {stop.GetProperty("name").GetString()}");
            }
        }
    }

    private void Blame(string fault) =>
        faults.Add(string.Create(CultureInfo.InvariantCulture, $"{new Uri(visitor.Page.Url).AbsolutePath.Split('/')[^1]}: {fault}"));
}
