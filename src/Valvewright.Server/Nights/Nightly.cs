using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Season;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Work;
using Valvewright.Work.Rounds;

namespace Valvewright.Server.Nights;

/// <summary>This year's advice for the sites of a store, found once each night and kept there.</summary>
public static class Nightly
{
    /// <summary>What rounds know of a site of a store: plan and last visits.</summary>
    public static SiteFacts FactsOf(SiteStore store, Kept<SiteValue> kept, Site site)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(kept);
        Plan? plan = Plans.PlanReading.Best(store, kept.Id) is { } best ? PlanFiles.Parse(best.Value.Plan, "plan").Saved?.Plan : null;
        return new SiteFacts
        {
            Site = site, Plan = plan,
            LastVisits = store.All<VisitValue>(kept.Id).Select(v => v.Value).OrderBy(v => v.At).GroupBy(v => v.Controller)
                .Select(g => Done(site, g.Last())).ToListOf(),
        };
    }

    /// <summary>A site of a store with its weather.</summary>
    /// <exception cref="RefusalException">There is no weather, or it can't be used.</exception>
    public static SiteYears Years(SiteStore store, Kept<SiteValue> kept, Site site)
    {
        ArgumentNullException.ThrowIfNull(kept);
        return SiteReading.Years(store, kept.Id, site);
    }

    /// <summary>Works the advice for a site out, or says why there is none.</summary>
    public static SiteAdvice Of(SiteStore store, Kept<SiteValue> kept, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(kept);
        return SurveyFiles.ParseApart(kept.Value.Survey, "survey").Site is { } site ? Of(store, kept, FactsOf(store, kept, site), today)
            : SiteAdvice.None("this survey can't be used");
    }

    /// <summary>The same, where the site's plan and visits have been read.</summary>
    public static SiteAdvice Of(SiteStore store, Kept<SiteValue> kept, SiteFacts facts, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(facts);
        try
        {
            // A site without a plan waits for no weather service.
            return SiteAdvice.Of(facts, facts.Plan is null || facts.Site.Weather is null ? null
                : SiteReading.Years(store, kept.Id, facts.Site), null, today);
        }
        catch (RefusalException refused)
        {
            return SiteAdvice.None(refused.Refusal.What);
        }
    }

    /// <summary>The advice of a date that is kept; null where there is none of that date.</summary>
    public static SiteAdvice? Kept(SiteStore store, Guid site, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Advice(site) is { } kept && kept.Night == today ? Read(kept.Value) : null;
    }

    /// <summary>The advice as it is kept.</summary>
    internal static string Write(SiteAdvice advice) => System.Text.Json.JsonSerializer.Serialize(
        new AdviceValue(advice.Controllers, advice.Missing is { } why ? SentenceParts.Of(why) : null), Json.Compact);

    /// <summary>The advice that is kept.</summary>
    internal static SiteAdvice Read(string value)
    {
        AdviceValue kept = Json.Read<AdviceValue>(value)!;
        return new SiteAdvice(kept.Controllers, kept.Missing?.ToSentence());
    }

    private static VisitDone Done(Site site, VisitValue visit)
    {
        SiteController? controller = site.Controllers.FirstOrDefault(c => c.Name == visit.Controller);
        Reading left = ReadingText.Parse(visit.AsLeft, controller?.Profile, site.Clock).Reading;
        return new VisitDone(visit.Controller, visit.At.Date, left.Off == true ? 0 : left.Percent);
    }

    private sealed record AdviceValue(ListOf<InYearAdvice> Controllers, SentenceParts? Missing);
}
