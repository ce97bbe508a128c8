namespace Valvewright.App.Pages.Survey;

/// <summary>An unfinished survey on the device.</summary>
/// <param name="Id">The site's id.</param>
/// <param name="IsNew">Whether the server has no such site yet.</param>
/// <param name="Text">The survey as far as it is written.</param>
/// <param name="Version">The version that it began from, as <c>If-Match</c> wants it; null for a new site.</param>
/// <param name="Step">The step that was worked on.</param>
/// <param name="At">When it was kept.</param>
/// <param name="Weather">A weather file that waits to be sent with it; null where none does.</param>
public sealed record SurveyDraft(Guid Id, bool IsNew, string Text, string? Version, string Step, Instant At, DraftWeather? Weather = null);

/// <summary>A weather file that waits to be sent once the survey that names it is kept.</summary>
/// <param name="Name">The file's name.</param>
/// <param name="Type">Its media type.</param>
/// <param name="Text">What it holds.</param>
public sealed record DraftWeather(string Name, string Type, string Text);
