using Valvewright.App.Texts;

namespace Valvewright.App.Pages.Survey;

/// <summary>Something that was assumed, once for all that it was assumed of.</summary>
/// <param name="What">What it is.</param>
/// <param name="Whom">Of which supplies, controllers and zones; empty where of the whole site.</param>
/// <param name="Value">The value taken.</param>
/// <param name="Why">Where it comes from.</param>
public sealed record AssumedLine(string What, string Whom, string Value, string Why)
{
    private const int MostNamed = 6;

    /// <summary>The assumptions of a site, alike ones together.</summary>
    public static ListOf<AssumedLine> Of(PageWords words, Site site)
    {
        return site.Assumptions
            .Select(a => (Place: Said.Place(words, a), Value: words.Say(a.Value, site.Units), Why: words.Say(a.Why, site.Units)))
            .GroupBy(a => (a.Place.What, a.Value, a.Why))
            .Select(same => new AssumedLine(same.Key.What,
                Whose(words, [.. same.Select(a => a.Place.Whose).Where(w => w.Length > 0).Distinct()]), same.Key.Value, same.Key.Why))
            .ToListOf();
    }

    private static string Whose(PageWords words, string[] names) => names.Length <= MostNamed
        ? string.Join("; ", names)
        : words.Fill("survey.assumed.many", ("names", string.Join("; ", names[..MostNamed])), ("n", names.Length - MostNamed));
}
