using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Work;

/// <summary>The question what to set today.</summary>
/// <param name="Site">The site.</param>
/// <param name="Plan">A plan with visits.</param>
/// <param name="Training">Whole years of record, from which what is to come is taken.</param>
/// <param name="SoFar">This year's weather, from the year's first day to yesterday.</param>
/// <param name="PercentNow">What a controller is set to, where that is not what the season says.</param>
public sealed record AdviceRequest(
    Site Site, Plan Plan, ListOf<Climate> Training, Climate SoFar, IReadOnlyDictionary<string, int> PercentNow);

/// <summary>What to set today, from this year's weather so far.</summary>
/// <param name="EtoMm">Reference evapotranspiration of the year so far.</param>
/// <param name="RainMm">Rain of the year so far.</param>
/// <param name="Controllers">By controller.</param>
public sealed record YearAdvice(double EtoMm, double RainMm, ListOf<InYearAdvice> Controllers)
{
    /// <summary>Works the advice out.</summary>
    /// <exception cref="RefusalException">The plan has no visits, or a controller can't be set to what was said.</exception>
    public static YearAdvice Of(AdviceRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (request.Plan.Controllers.All(c => c.Visits.Count == 0))
        {
            throw Wrong("--plan", "no visits", "a plan that 'valvewright season' has written", "the plan has no season yet");
        }

        Problem[] problems = [.. request.PercentNow.Select(p => ProblemOf(request.Site, p.Key, p.Value)).OfType<Problem>()];
        return problems.Length > 0
            ? throw new RefusalException(new Refusal.WrongRequest([.. problems]))
            : new YearAdvice(
                request.SoFar.EtoMm.Sum(), request.SoFar.RainMm.Sum(),
                InYearAdvice.Of(request.Site.AsOf(request.SoFar.Last.PlusDays(1)), request.Plan, request.Training, request.SoFar,
                    request.PercentNow));
    }

    /// <summary>This year's weather to the day before a date.</summary>
    /// <param name="site">The site.</param>
    /// <param name="file">The file, as problems name it.</param>
    /// <param name="reading">What the file holds.</param>
    /// <param name="today">The date.</param>
    /// <exception cref="RefusalException">Days are missing, or it cannot be used.</exception>
    public static Climate SoFar(Site site, string file, WeatherReading reading, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (!reading.Ok)
        {
            throw new RefusalException(new Refusal.WeatherUnusable(reading.Problems));
        }

        LocalDate first = InYearAdvice.FirstDayOfYear(site, today), last = today.PlusDays(-1);
        if (last < first)
        {
            throw Wrong("--today", $"{today:uuuu-MM-dd}", $"a date after {first:uuuu-MM-dd}", "the year has no weather yet");
        }

        Climate climate = SiteYears.Build(reading.Record, file, site.Weather?.Eto).Climate;
        return climate.First <= first && climate.Last >= last
            ? climate.Between(first, last)
            : throw Wrong(file, $"{climate.First:uuuu-MM-dd} to {climate.Last:uuuu-MM-dd}", $"{first:uuuu-MM-dd} to {last:uuuu-MM-dd}",
                "days of this year are missing");
    }

    private static Problem? ProblemOf(Site site, string name, int percent)
    {
        if (site.Controllers.FirstOrDefault(c => c.Name == name) is not { } controller)
        {
            string[] names = [.. site.Controllers.Select(c => c.Name)];
            return new Problem("--percent", 0, 0, name, string.Join(", ", names), NearestWord.To(name, names),
                "the survey has no such controller");
        }

        int[] settings = [0, .. controller.Profile.Percent.Settings().Append(100).Distinct().Order()];
        return settings.Contains(percent)
            ? null
            : new Problem(
                "--percent", 0, 0, $"{name}={percent}", $"{name}= and one of {settings[0]}, {settings[1]} ... {settings[^1]}", null,
                "the controller can't be set to that");
    }

    private static RefusalException Wrong(string where, string found, string expected, string message) =>
        new(new Refusal.WrongRequest([new Problem(where, 0, 0, found, expected, null, message)]));
}
