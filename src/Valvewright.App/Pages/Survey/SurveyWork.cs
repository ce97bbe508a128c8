using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Sheet;

namespace Valvewright.App.Pages.Survey;

/// <summary>A survey being worked on: its sheet, what the reader says of it, and which steps were left behind.</summary>
public sealed class SurveyWork
{
    private readonly HashSet<string> left = [];
    private SurveyDraft draft;

    /// <summary>Takes up an unfinished survey.</summary>
    public SurveyWork(SurveyDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        this.draft = draft;
        Step = SurveySteps.All.Contains(draft.Step) || draft.Step == "text" ? draft.Step : "place";
        Read(draft.Text);
        if (!draft.IsNew)
        {
            left.UnionWith(SurveySteps.All);
        }
    }

    /// <summary>The step that is shown; <c>text</c> is the survey's own text.</summary>
    public string Step { get; private set; }

    /// <summary>The zone that is shown: its path; empty for none.</summary>
    public string Zone { get; set; } = "";

    /// <summary>The survey as far as it is written.</summary>
    public string Text { get; private set; } = "";

    /// <summary>The sheet; null where the text is no YAML, so that it can only be edited as text.</summary>
    public SurveySheet? Sheet { get; private set; }

    /// <summary>The reader's site; null where there are problems.</summary>
    public Site? Site { get; private set; }

    /// <summary>What must be put right.</summary>
    public ListOf<Problem> Problems { get; private set; } = [];

    /// <summary>What is questioned.</summary>
    public ListOf<Problem> Questions { get; private set; } = [];

    /// <summary>A weather file that waits for the survey to be kept.</summary>
    public DraftWeather? Weather
    {
        get => draft.Weather;
        set => draft = draft with { Weather = value };
    }

    /// <summary>Whether the server has no such site yet.</summary>
    public bool IsNew => draft.IsNew;

    /// <summary>The site's id.</summary>
    public Guid Id => draft.Id;

    /// <summary>Whether anything was changed since it was taken up.</summary>
    public bool IsChanged { get; private set; }

    /// <summary>Raised when anything changes.</summary>
    public event Action? Changed;

    /// <summary>The units of plain numbers.</summary>
    public UnitSystem Units => Get("units") == "us" ? UnitSystem.UsCustomary : UnitSystem.Metric;

    /// <summary>The survey as it is to be kept.</summary>
    public SurveyDraft Draft => draft with { Text = Text, Step = Step };

    /// <summary>A value as typed.</summary>
    public string Get(string path) => Sheet?.Text(path) ?? "";

    /// <summary>Changes a value.</summary>
    public void Set(string path, string? text) => Change(s => s.Set(path, text));

    /// <summary>Changes the sheet.</summary>
    public void Change(Action<SurveySheet> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        if (Sheet is { } sheet)
        {
            change(sheet);
            IsChanged = true;
            Text = sheet.Write();
            Judge(Text);
            Changed?.Invoke();
        }
    }

    /// <summary>Puts another text in the survey's place.</summary>
    public void SetText(string text)
    {
        IsChanged = true;
        Read(text);
        Changed?.Invoke();
    }

    /// <summary>Goes on with another version of the survey, resting on a version of the server's.</summary>
    public void RestOn(string text, string version)
    {
        draft = draft with { Version = version, IsNew = false };
        SetText(text);
    }

    /// <summary>Goes to a step; the one that is left has been seen, and what it lacks is told from then on.</summary>
    public void GoTo(string step)
    {
        left.Add(Step);
        if (step == "check")
        {
            left.UnionWith(SurveySteps.All);
        }

        Step = step;
        Changed?.Invoke();
    }

    /// <summary>The problems of one value that it is time to tell: what is missing is told once its step was left.</summary>
    public IEnumerable<Problem> Wrong(string path) =>
        Problems.Where(p => p.Path == path && (!p.IsAbsence || left.Contains(SurveySteps.Of(path))));

    /// <summary>The questions about one value.</summary>
    public IEnumerable<Problem> Doubtful(string path) => Questions.Where(p => p.Path == path);

    /// <summary>How many problems a step has that it is time to tell.</summary>
    public int WrongIn(string step) => left.Contains(step) ? Problems.Count(p => SurveySteps.Of(p.Path) == step) : 0;

    /// <summary>Whether a step was left.</summary>
    public bool IsLeft(string step) => left.Contains(step);

    /// <summary>The profile of a controller, as far as it can be understood.</summary>
    /// <param name="controller">The controller's path.</param>
    public Profile? ProfileOf(string controller) => GenericProfiles.Named(Get(SurveySheet.Join(controller, "profile")));

    /// <summary>The paths of all zones.</summary>
    public IEnumerable<string> Zones()
    {
        for (int c = 0; c < (Sheet?.Count("controllers") ?? 0); c++)
        {
            string zones = $"controllers/{c}/zones";
            for (int z = 0; z < Sheet!.Count(zones); z++)
            {
                yield return SurveySheet.Join(zones, z);
            }
        }
    }

    private void Read(string text)
    {
        Text = text;
        Sheet = text.Length == 0 ? SurveySheet.Blank() : SurveySheet.Of(text);
        Judge(text);
    }

    private void Judge(string text)
    {
        SurveyReading reading = SurveyFiles.ParseApart(text, "survey");
        (Site, Problems, Questions) = (reading.Site, reading.Problems, reading.Warnings);
    }
}
