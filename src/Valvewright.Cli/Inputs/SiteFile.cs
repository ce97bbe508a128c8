using Valvewright.Cli.Output;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Words;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Work;

namespace Valvewright.Cli.Inputs;

/// <summary>A site file that a command was given, read and whole.</summary>
/// <param name="Path">The file.</param>
/// <param name="Site">The survey.</param>
/// <param name="Questions">What can be used but is questioned.</param>
internal sealed record SiteFile(string Path, Site Site, ListOf<Problem> Questions)
{
    /// <summary>Where results go when no one says where: <c>out</c> next to the site file.</summary>
    public string OutputFolder { get; } = System.IO.Path
        .Combine(System.IO.Path.GetDirectoryName(Path) is { Length: > 0 } folder ? folder : ".", "out");

    /// <summary>Where a plan is saved when no one says where.</summary>
    public string UsualPlan => System.IO.Path.Combine(OutputFolder, PlanFiles.UsualName);

    /// <summary>Today where the site is.</summary>
    public LocalDate Today => Now.Date;

    /// <summary>Date and time where the site is, to the minute.</summary>
    public LocalDateTime Now
    {
        get
        {
            LocalDateTime now = SystemClock.Instance.GetCurrentInstant().InZone(Site.Zone()).LocalDateTime;
            return now.Date + new LocalTime(now.Hour, now.Minute);
        }
    }

    /// <summary>Reads a site file, or the site file of a folder.</summary>
    /// <exception cref="ProblemsException">Something in it can't be used.</exception>
    public static SiteFile Read(string path)
    {
        SurveyReading reading = SurveyFiles.Read(path);
        string file = Directory.Exists(path) ? System.IO.Path.Combine(path, SurveyFiles.UsualName) : path;
        return reading.Site is { } site ? new SiteFile(file, site, reading.Warnings) : throw new ProblemsException(reading.Problems);
    }

    /// <summary>Reads a site file and the weather that it names.</summary>
    /// <exception cref="ProblemsException">Something in the survey can't be used.</exception>
    /// <exception cref="RefusalException">Something in the weather can't be used.</exception>
    public static (SiteFile File, SiteYears Years) ReadWithWeather(string path, Progress progress)
    {
        progress.Step("Reading the survey");
        SiteFile file = Read(path);
        progress.Step("Reading the weather");
        return (file, SiteYears.Read(file.Site));
    }

    /// <summary>A saved plan: the one that was named, or the usual one.</summary>
    /// <exception cref="ProblemsException">It can't be used.</exception>
    public SavedPlan ReadPlan(string? given)
    {
        PlanReading reading = PlanFiles.Read(given ?? UsualPlan);
        return reading.Saved ?? throw new ProblemsException(reading.Problems);
    }

    /// <summary>Refuses a plan that the controllers of the survey cannot hold: what they would do with it no one knows.</summary>
    /// <param name="saved">The plan.</param>
    /// <param name="given">Its file, if given.</param>
    public void RequireKeyable(SavedPlan saved, string? given)
    {
        ArgumentNullException.ThrowIfNull(saved);
        string name = given ?? UsualPlan;
        Problem[] problems =
        [
            .. saved.Plan.Controllers.SelectMany(own => Site.Controllers.FirstOrDefault(c => c.Name == own.Controller) is { } controller
                ? Keyable.Breaches(controller, own).Select(
                    b => new Problem(name, 0, 0, $"{b.Where}: {b.What.Text}", $"settings that {controller.Name} can hold", null,
                        "the plan has what its controller cannot hold"))
                : [new Problem(name, 0, 0, own.Controller, string.Join(", ", Site.Controllers.Select(c => c.Name)),
                    NearestWord.To(own.Controller, Site.Controllers.Select(c => c.Name)), "the survey has no controller of that name")]),
        ];
        if (problems.Length > 0)
        {
            throw new ProblemsException(problems);
        }
    }
}
