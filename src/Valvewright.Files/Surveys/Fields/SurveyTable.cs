namespace Valvewright.Files.Surveys.Fields;

/// <summary>The table of all fields of a survey.</summary>
public static class SurveyTable
{
    /// <summary>The fields of the site; all others are within them.</summary>
    public static FieldGroup Site => SiteFields.Site;

    /// <summary>All groups of fields, each once, outer ones first.</summary>
    public static IReadOnlyList<FieldGroup> Groups { get; } = [.. Within(SiteFields.Site).DistinctBy(group => group.Name)];

    /// <summary>The field at a path such as <c>controllers/0/zones/2/plants/kind</c>; null where there is none.</summary>
    public static SurveyField? At(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        FieldGroup? group = SiteFields.Site;
        SurveyField? field = null;
        foreach (string step in path.Split('/').Where(step => step.Length > 0 && !step.All(char.IsAsciiDigit)))
        {
            field = group?[step];
            group = field?.Group;
        }

        return field;
    }

    /// <summary>The group of the mapping at a path; the site's where the path is empty.</summary>
    public static FieldGroup? GroupAt(string path) => string.IsNullOrEmpty(path) ? SiteFields.Site : At(path)?.Group;

    private static IEnumerable<FieldGroup> Within(FieldGroup group) =>
        new[] { group }.Concat(group.Fields.Select(field => field.Group).OfType<FieldGroup>().SelectMany(Within));
}
