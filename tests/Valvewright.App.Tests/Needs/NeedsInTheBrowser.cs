using Valvewright.App.Pages.Needs;
using Valvewright.App.Parts;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Needs;

/// <summary>What the page shows of needs: every figure opens to where it came from, in both languages and both systems of units.</summary>
public sealed class NeedsInTheBrowser
{
    public static TheoryData<string, Language> Demos()
    {
        TheoryData<string, Language> data = [];
        foreach (string demo in (string[])["quarry-hill", "saguaro-lane"])
        {
            data.Add(demo, Language.English);
            data.Add(demo, Language.Spanish);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Every_figure_says_how_it_came_about_and_what_was_assumed(string demo, Language language)
    {
        (Site site, ListOf<Climate> years) = Read(demo);
        PageWords words = Words(language);
        SiteWords say = new(site.Units, site.Clock, words.Common);
        foreach (SiteController controller in site.Controllers)
        {
            foreach (Zone zone in controller.Zones)
            {
                ZoneWeeks weeks = ZoneWeeks.Of(ZoneNeeds.Of(site, controller, zone, years), years);
                ListOf<Fact> facts = new ZoneFacts(site, controller, zone, weeks.Need, say, words).All();
                Assert.InRange(facts.Count, 12, 14);
                Assert.All(facts, f => Assert.True(f.Name.Length > 0 && f.Figure.Length > 0 && f.How.Length > 0));
                // A slope or a loss that nobody surveyed is marked; an area is always surveyed.
                WhenceInput[] inputs = [.. facts.SelectMany(f => f.Inputs)];
                Assert.Contains(inputs, i => i.IsAssumed && i.Why is { Length: > 0 });
                Assert.All(inputs.Where(i => i.Name == words["needs.in.area"]), i => Assert.False(i.IsAssumed));
                if (site.Units == UnitSystem.UsCustomary) Assert.DoesNotContain(
                    facts, f => f.Figure.Contains(" mm", StringComparison.Ordinal) || f.How.Contains(" mm", StringComparison.Ordinal));
            }
        }
    }

    [Fact]
    public void The_weeks_add_up_to_the_rain_of_the_record_and_the_chart_has_a_row_for_each()
    {
        (Site site, ListOf<Climate> years) = Read("quarry-hill");
        SiteController controller = site.Controllers[0];
        ZoneWeeks weeks = ZoneWeeks.Of(ZoneNeeds.Of(site, controller, controller.Zones[1], years), years);
        Assert.Equal(years.Average(y => y.RainMm.ToArray().Sum()), weeks.RainMeanMm.Sum(), 6);
        Assert.All(Enumerable.Range(0, 52), w => Assert.True(weeks.RainDryMm[w] >= 0));
        PageWords words = Words(Language.Spanish);
        Chart chart = NeedsChart.Of(weeks, new SiteWords(site.Units, site.Clock, words.Common), words);
        Assert.Equal(52, chart.Table.Rows.Count);
        Assert.All(chart.Layers, l => Assert.Equal(52, l.Y.Count));
        Assert.All(chart.Table.Rows, r => Assert.Equal(chart.Table.Heads.Count, r.Count));
    }

    private static (Site Site, ListOf<Climate> Years) Read(string demo)
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", demo)).Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
        return (site, built.Split(site.Place.LatitudeDeg).Training.Take(4).Select(y => y.Of(built.Climate)).ToListOf());
    }

    private static PageWords Words(Language language)
    {
        Preferences preferences = new(new Device(null!));
        typeof(Preferences).GetProperty(nameof(Preferences.Language))!.SetValue(preferences, language);
        return new PageWords(preferences);
    }
}
