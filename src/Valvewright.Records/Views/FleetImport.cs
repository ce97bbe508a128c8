namespace Valvewright.Records.Views;

/// <summary>What a table of controllers says that the store does not.</summary>
/// <param name="Applied">Whether the changes were made; if not, they are what would be made.</param>
/// <param name="Rows">Rows below the headings.</param>
/// <param name="Unchanged">Rows that say what the store says, or nothing.</param>
/// <param name="Changes">Changes, by row.</param>
/// <param name="Drafts">Beginnings of surveys for sites that the store does not have; they are never stored by themselves, for a survey
/// needs more than a table has.</param>
/// <param name="Problems">What cannot be used, by row (<c>line</c>) and column; with any of them nothing is stored.</param>
public sealed record FleetImport(
    bool Applied, int Rows, int Unchanged, ListOf<FleetChange> Changes, ListOf<SurveyDraft> Drafts, ListOf<TextProblem> Problems);

/// <summary>One change.</summary>
/// <param name="Row">The row, headings being row 1.</param>
/// <param name="Site">The site.</param>
/// <param name="SiteName">Its name as it stands.</param>
/// <param name="Controller">The controller; null where the whole site is meant.</param>
/// <param name="Kind">What is changed.</param>
/// <param name="From">What the store says.</param>
/// <param name="To">What it would say.</param>
public sealed record FleetChange(int Row, Guid Site, string SiteName, string? Controller, FleetChangeKind Kind, string From, string To);

/// <summary>What a table can change.</summary>
public enum FleetChangeKind
{
    /// <summary>The site's name, in its survey.</summary>
    Name,

    /// <summary>Where the site lies, in its survey.</summary>
    Place,

    /// <summary>The supply that a controller drinks from, in the survey.</summary>
    Supply,

    /// <summary>A visit is added, with the battery and the meter as read at it.</summary>
    Visit,
}

/// <summary>The beginning of a survey.</summary>
/// <param name="Name">The site's name.</param>
/// <param name="Rows">The rows that it was begun from.</param>
/// <param name="Survey">Its text: what the table says, and what has to be filled in as comments.</param>
public sealed record SurveyDraft(string Name, ListOf<int> Rows, string Survey);
