using System.Text;
using Valvewright.Engine.Words;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;
using Valvewright.Work;

namespace Valvewright.App.Shelf;

/// <summary>A new site that was surveyed without a server: what a server would carry of it, made here of the survey, until it is sent and
/// becomes the same site there.</summary>
public static class NotSentSite
{
    private const int MostProblems = 20;

    /// <summary>The site; null where the survey is none.</summary>
    /// <param name="id">The id that it was given here and keeps.</param>
    /// <param name="survey">The survey as written.</param>
    /// <param name="weather">The weather file that goes with it, name and text; null where none does.</param>
    /// <param name="by">Who surveyed it.</param>
    /// <param name="at">When it was kept.</param>
    public static CarriedSite? Of(Guid id, string survey, (string Name, string Text)? weather, string by, Instant at)
    {
        SurveyReading reading = SurveyFiles.ParseApart(survey, "survey");
        if (reading.Site is not { } site)
        {
            return null;
        }

        (CarriedWeather? carried, ProblemDocument? problem) = Weather(site, weather);
        ListOf<TextProblem> questions = reading.Warnings
            .Select(w => new TextProblem(w.File, w.Line, w.Column, w.Found, w.Expected.Text, w.Nearest, w.Message.Text, w.Where)
                { Said = new SaidOfProblem(SentenceParts.Of(w.Message), Expected: SentenceParts.Of(w.Expected)) })
            .ToListOf();
        SiteView view = new(id, 0, site.Name, SavedPlan.DigestOf(site), new Stamp(by, at), survey, site, questions, null);
        return CarriedSite.Of(id, "", at, new CarryView(view, carried, problem, [], [], []));
    }

    private static (CarriedWeather? Weather, ProblemDocument? Problem) Weather(Site site, (string Name, string Text)? weather)
    {
        try
        {
            SiteYears years = SiteYears.OfFile(site, weather is { } file ? (file.Name, Encoding.UTF8.GetBytes(file.Text)) : null);
            return (CarriedWeather.Of(years.Weather.Record!, years.Built, years.Split), null);
        }
        catch (RefusalException reason)
        {
            return (null, ProblemOf(reason.Refusal));
        }
    }

    private static ProblemDocument ProblemOf(Refusal refusal) => new($"/problems/{refusal.Kind}", refusal.Kind, 422, refusal.What)
    {
        Problems = refusal is Refusal.WeatherUnusable
            ? refusal.Problems.Take(MostProblems).Select(
                p => new TextProblem(p.File, p.Line, p.Column, p.Found, p.Expected.Text, p.Nearest, p.Message.Text, p.Where)).ToListOf()
            : [],
    };
}
