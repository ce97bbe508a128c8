using Valvewright.Engine.Needs;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;

namespace Valvewright.Work;

/// <summary>A site with its weather: the years to plan with and the years to prove on. All work on a site's water starts here.</summary>
public sealed class SiteYears
{
    private SiteYears(Site site, WeatherReading weather, BuiltClimate built)
    {
        Weather = weather;
        Built = built;
        Split = built.Split(site.Place.LatitudeDeg);
        Training = Split.Training.Select(y => y.Of(built.Climate)).ToListOf();
        HeldBack = Split.HeldBack.Select(y => y.Of(built.Climate)).ToListOf();
        Site = (site with { Assumptions = site.Assumptions
            .Concat(SiteWeather.Assumed(weather.Record!).Where(a => !site.Assumptions.Contains(a))).ToListOf() }).In(Training);
    }

    /// <summary>The survey, with what was assumed of the weather station and of the air.</summary>
    public Site Site { get; }

    /// <summary>The weather as read.</summary>
    public WeatherReading Weather { get; }

    /// <summary>ETo and rain of every day.</summary>
    public BuiltClimate Built { get; }

    /// <summary>Which years are planned with, which are proven on, and why.</summary>
    public YearSplit Split { get; }

    /// <summary>The years to plan with.</summary>
    public ListOf<Climate> Training { get; }

    /// <summary>The years to prove on.</summary>
    public ListOf<Climate> HeldBack { get; }

    /// <summary>The same years for a survey that was changed in what its zones are; place and weather stay.</summary>
    public SiteYears With(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return new SiteYears(site, Weather, Built);
    }

    /// <summary>The same with plants as they are on a date.</summary>
    public SiteYears AsOf(LocalDate date) => Site.AsOf(date) is var then && then == Site ? this : With(then);

    /// <summary>What each zone needs, from the years to plan with.</summary>
    public ListOf<ZoneNeed> Needs() => ZoneNeeds.OfAll(Site, Training);

    /// <summary>Reads the file that the survey names, or asks the service that it names.</summary>
    /// <exception cref="RefusalException">There is no weather, or it cannot be used.</exception>
    public static SiteYears Read(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Weather is null ? throw new RefusalException(new Refusal.WeatherNotNamed(site.Name)) : Of(site, SiteWeather.Read(site));
    }

    /// <summary>Takes the weather file that was sent with a survey. No file is read and no service is asked.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="sent">The file's name and bytes; null where none was sent.</param>
    /// <exception cref="RefusalException">There is no weather, or it cannot be used.</exception>
    public static SiteYears OfFile(Site site, (string Name, byte[] Bytes)? sent)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Weather is not { } named ? throw new RefusalException(new Refusal.WeatherNotNamed(site.Name))
            : sent is not { } file || named.File is null
                ? throw new RefusalException(new Refusal.WeatherMissing(named.File?.Split('/', '\\')[^1] ?? ""))
            : Of(site, SiteWeather.ReadBytes(site, file.Name, file.Bytes));
    }

    /// <summary>Builds the climate of a record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="where">The file, as problems name it.</param>
    /// <param name="options">Choices for reference ET; null for those of the record.</param>
    /// <exception cref="RefusalException">It does not hold what reference evapotranspiration is found from.</exception>
    public static BuiltClimate Build(WeatherRecord record, string where, EtoOptions? options = null)
    {
        try
        {
            return ClimateBuilder.Build(record, options);
        }
        catch (ArgumentException reason)
        {
            throw new RefusalException(new Refusal.WeatherUnusable([new Problem(
                where, 0, 0, Reason.Of(reason), "days with highest and lowest temperature, or with a published ETo", null,
                    "no reference evapotranspiration can be found from this record")]));
        }
    }

    private static SiteYears Of(Site site, WeatherReading weather) => weather.Ok
        ? new SiteYears(site, weather, Build(weather.Record!, site.Weather?.File ?? site.Name))
        : throw new RefusalException(
            new Refusal.WeatherUnusable(weather.Problems) { IsOfService = site.Weather is { File: null, Service: not null } });
}
