using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.App.Shelf;
using Valvewright.Files.Cards.Pdf;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Cards;

/// <summary>Where cards are, and for which date they are.</summary>
public static class CardAddress
{
    /// <summary>The page of a card, or of the list of cards where no controller is named. Names stand in the query, because they can hold
    /// anything.</summary>
    public static string Of(Guid site, Guid? plan, string? controller = null, LocalDate? from = null)
    {
        string[] query =
        [
            .. controller is null ? Array.Empty<string>() : [$"controller={Uri.EscapeDataString(controller)}"],
            .. plan is null ? Array.Empty<string>() : [$"plan={plan}"],
            .. from is { } date ? [$"from={Write(date)}"] : Array.Empty<string>(),
        ];
        return $"sites/{site}/cards{(query.Length == 0 ? "" : "?" + string.Join('&', query))}";
    }

    /// <summary>The server's PDF of a card, or of all cards where no controller is named.</summary>
    public static string Pdf(Guid site, Guid plan, string? controller, LocalDate from, Language language, PaperSize paper) =>
        string.Create(CultureInfo.InvariantCulture, $"api/sites/{site}/plans/{plan}/cards.pdf?from={Write(from)}")
        + $"&language={(language == Language.Spanish ? "es" : "en")}&paper={(paper == PaperSize.Letter ? "letter" : "a4")}"
        + (controller is null ? "" : $"&controller={Uri.EscapeDataString(controller)}");

    /// <summary>The date that a card is for when none is asked for: today at the site, or the plan's first date where that is still to
    /// come.</summary>
    public static LocalDate UsualDate(OpenedSite site, OpenedPlan plan, IClock clock)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(clock);
        return LocalDate.Max(plan.View.From, clock.GetCurrentInstant().InZone(site.Site.Zone()).Date);
    }

    /// <summary>A date as it stands in addresses and date fields; null where the text is none.</summary>
    public static LocalDate? ReadDate(string? text) => text is not null && LocalDatePattern.Iso.Parse(text) is { Success: true } read
        ? read.Value : null;

    /// <summary>A date for addresses and date fields.</summary>
    public static string Write(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
