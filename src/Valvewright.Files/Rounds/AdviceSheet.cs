using NodaTime.Text;
using Valvewright.Engine.Season;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Rounds;

/// <summary>This year's advice for many sites.</summary>
/// <param name="Today">The date of the advice.</param>
/// <param name="Advice">A line for each controller.</param>
/// <param name="Missing">Sites without advice.</param>
public sealed record AdviceSheet(LocalDate Today, ListOf<AdviceLine> Advice, ListOf<AdviceMissing> Missing)
{
    /// <summary>The sheet as JSON.</summary>
    public string AsJson() => Json.Write(this) + "\n";

    /// <summary>The sheet as a calendar: what is worth a trip on its date, the rest at the next visit.</summary>
    public string AsCalendar(Language language) => AdviceCalendar.Write(
        Sentences.Say("Advice of the night", language), Today, Advice.Select(l => new AdviceEvent(
            $"{l.Site}/{l.Controller}", l.IsWorthADrive ? Today : l.NextDate, $"{l.Site}, {l.In(language)}")).ToListOf());
}

/// <summary>This year's advice for a controller.</summary>
/// <param name="Site">The site.</param>
/// <param name="Controller">The controller.</param>
/// <param name="PercentNow">What it is set to; 0 is off.</param>
/// <param name="PercentAdvised">What to set; 0 is off.</param>
/// <param name="NextDate">The next visit.</param>
/// <param name="SavedLitres">What the change saves to the end of the year, water and weighed unmet use.</param>
/// <param name="IsWorthADrive">Whether it is worth a trip by itself.</param>
public sealed record AdviceLine(
    string Site, string Controller, int PercentNow, int PercentAdvised, LocalDate NextDate, double SavedLitres, bool IsWorthADrive)
{
    /// <summary>The line of a controller.</summary>
    public static AdviceLine Of(string site, InYearAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        return new AdviceLine(site, advice.Controller, advice.PercentNow, advice.PercentToday, advice.Earlier?.Date ?? advice.NextVisit,
            Math.Round(advice.SavedLitres), advice.IsWorthADrive);
    }

    /// <summary>The line in words, without the site.</summary>
    public string In(Language language)
    {
        string Set(int percent) => percent == 0 ? Sentences.Say("off", language) : Wording.In(language).Percent(percent);
        (string now, string then, string next) = (Set(PercentNow), Set(PercentAdvised), LocalDatePattern.Iso.Format(NextDate));
        return Sentences.Say(PercentNow == PercentAdvised ? $"{Controller}: {now} stays. Next visit {next}."
            : IsWorthADrive ? (Sentence)$"{Controller}: {now} -> {then} saves {SavedLitres:0} L, worth a trip. Next visit {next}."
            : (Sentence)$"{Controller}: {now} -> {then} saves {SavedLitres:0} L, can wait. Next visit {next}.", language);
    }
}

/// <summary>A site without advice.</summary>
/// <param name="Site">The site.</param>
/// <param name="Why">Why.</param>
public sealed record AdviceMissing(string Site, Sentence Why);
