using NodaTime;
using NodaTime.Text;

namespace Valvewright.Files.Cards;

/// <summary>Where the page does the work at a controller, and the link to it that a card's QR code holds.</summary>
public static class WorkLink
{
    /// <summary>More pictures than these are not tried for one without false corners.</summary>
    private const int MostMarks = 7;

    /// <summary>The address below the page's own. Names stand in the query, because they can hold anything.</summary>
    /// <param name="site">The site.</param>
    /// <param name="controller">The controller's name.</param>
    /// <param name="on">The date of the card to set from, where that is not simply today's.</param>
    public static string Path(Guid site, string controller, LocalDate? on = null) =>
        $"sites/{site}/at?controller={Uri.EscapeDataString(controller)}"
            + (on is { } date ? $"&from={LocalDatePattern.Iso.Format(date)}" : "");

    /// <summary>The whole link, for a camera; null where the page's address is one that only its own machine can open.</summary>
    public static string? Of(Uri page, Guid site, string controller, LocalDate on)
    {
        ArgumentNullException.ThrowIfNull(page);
        return page.IsLoopback ? null : new Uri(page, Path(site, controller, on)).AbsoluteUri;
    }

    /// <summary>Links that lead to the same place, for <see cref="QrPicture.Of"/> to choose from.</summary>
    internal static IReadOnlyCollection<string> Equivalents(string link) =>
        [link, .. Enumerable.Range(1, MostMarks).Select(mark => $"{link}#{mark}")];
}
