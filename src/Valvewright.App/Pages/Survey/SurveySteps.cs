namespace Valvewright.App.Pages.Survey;

/// <summary>The steps of a survey, in the order in which they are asked.</summary>
public static class SurveySteps
{
    /// <summary>Their names.</summary>
    public static readonly string[] All = ["place", "supplies", "controllers", "zones", "weather", "check"];

    /// <summary>The step that a value is asked in.</summary>
    /// <param name="path">The path of the value.</param>
    public static string Of(string path)
    {
        string[] steps = path.Split('/');
        return steps[0] switch
        {
            "supplies" or "weather" => steps[0],
            "profiles" => "controllers",
            "controllers" => steps.Length > 2 && steps[2] == "zones" ? "zones" : "controllers",
            "soil" or "slope" => "zones",
            "" => "check",
            _ => "place",
        };
    }

    /// <summary>The one after; null after the last.</summary>
    public static string? After(string step) => All.ElementAtOrDefault(Array.IndexOf(All, step) + 1);

    /// <summary>The one before; null before the first.</summary>
    public static string? Before(string step) => Array.IndexOf(All, step) is > 0 and int at ? All[at - 1] : null;
}
