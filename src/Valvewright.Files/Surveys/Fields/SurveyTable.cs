namespace Valvewright.Files.Surveys.Fields;

/// <summary>The table of all fields of a survey.</summary>
public static class SurveyTable
{
    /// <summary>The fields of the site; all others are within them.</summary>
    public static FieldGroup Site => SiteTable.Site;

    /// <summary>All groups of fields, each once, outer ones first.</summary>
    public static IReadOnlyList<FieldGroup> Groups { get; } = [.. Within(SiteTable.Site).DistinctBy(group => group.Name)];

    /// <summary>The field at a path such as <c>controllers/0/zones/2/plants/kind</c>; null where there is none.</summary>
    public static SurveyField? At(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        FieldGroup? group = SiteTable.Site;
        SurveyField? field = null;
        foreach (string step in path.Split('/').Where(step => step.Length > 0 && !step.All(char.IsAsciiDigit)))
        {
            field = group?[step];
            group = field?.Group;
        }

        return field;
    }

    /// <summary>The group of the mapping at a path; the site's where the path is empty.</summary>
    public static FieldGroup? GroupAt(string path) => string.IsNullOrEmpty(path) ? SiteTable.Site : At(path)?.Group;

    /// <summary>The name of a word of the field at a path; the word itself where it has none.</summary>
    public static Bilingual NameOf(string path, string word) =>
        (At(path)?.Kind as IWords)?.Words.FirstOrDefault(known => known.Word == word)?.Name ?? new Bilingual(word, word);

    /// <summary>The name of one of the engine's values that a survey has a word for.</summary>
    public static Bilingual NameOf<T>(T value)
        where T : struct, Enum => Kinds().OfType<WordList<T>>().First().NameOf(value);

    private static IEnumerable<FieldKind> Kinds() =>
        Groups.SelectMany(group => group.Fields).Select(field => field.Kind is ListKind list ? list.Item : field.Kind);

    private static IEnumerable<FieldGroup> Within(FieldGroup group) =>
        new[] { group }.Concat(group.Fields.Select(field => field.Group).OfType<FieldGroup>().SelectMany(Within));
}
