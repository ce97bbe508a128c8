using System.Text;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Surveys.Schema;

/// <summary>The field lists of docs/survey-file.md, made from the table.</summary>
public static class FieldLists
{
    private const string End = "<!-- end of fields -->";

    /// <summary>The page with its lists made again, each between its two marks.</summary>
    /// <exception cref="FormatException">The page leaves a group out.</exception>
    public static string Fill(string page)
    {
        ArgumentNullException.ThrowIfNull(page);
        foreach (FieldGroup group in SurveyTable.Groups)
        {
            string mark = $"<!-- fields: {group.Name} -->";
            int from = page.IndexOf(mark, StringComparison.Ordinal);
            int to = from < 0 ? -1 : page.IndexOf(End, from, StringComparison.Ordinal);
            if (to < 0) throw new FormatException($"The page has no '{mark}' ... '{End}'.");
            page = $"{page[..(from + mark.Length)]}\n{ListOf(group)}{page[to..]}";
        }

        return page;
    }

    private static string ListOf(FieldGroup group)
    {
        StringBuilder list = new("| key | holds | plain number | if left out |\n|---|---|---|---|\n");
        foreach (SurveyField field in group.Fields)
        {
            string leftOut = field.IsNeeded ? "needed" : field.LeftOut.English;
            list.Append($"| `{field.Key}` | {Holds(field)} | {PlainNumber(field.Kind)} | {leftOut} |\n");
        }

        return list.ToString();
    }

    private static string Holds(SurveyField field)
    {
        string[] parts =
        [
            (field.Help.IsEmpty ? field.Label.English : field.Help.English).TrimEnd('.'),
            Values(field.Kind),
            field.Examples.Count is 0 or > 3 ? "" : $"Such as {string.Join(", ", field.Examples.Select(Code))}",
        ];
        return string.Join(" ", parts.Where(part => part.Length > 0).Select(part => part + "."));
    }

    private static string Values(FieldKind kind) => kind switch
    {
        ListKind { Item: KeysKind } => "A list",
        ListKind list => $"{Values(list.Item)}. {(list.TakesOne ? "One, or a list" : "A list")}".TrimStart('.', ' '),
        KeysKind { ShortKey: { } key } => $"A word for `{key}`, or keys",
        KeysKind => "Keys",
        IWords words => string.Join(", ", words.Words.Select(word => Code(word.Word))),
        YesNoKind => "`yes`, `no`",
        WholeKind whole => $"{whole.Least} to {whole.Largest}",
        NumberKind { Words: { } words } number => $"{Values(words)}, or {number.Least} to {number.Largest}",
        NumberKind number => $"{number.Least} to {number.Largest}",
        QuantityRule { Metric: { } unit } rule =>
            $"{QuantityRule.Limit(rule.Least, unit)} to {QuantityRule.Limit(rule.Largest, unit)} {unit.Symbol}",
        _ => "",
    };

    private static string PlainNumber(FieldKind kind) => kind switch
    {
        QuantityRule rule when rule.Metric == rule.Us => rule.Metric.Symbol,
        QuantityRule rule => $"{rule.Metric.Symbol}, {rule.Us.Symbol}",
        ListKind list => PlainNumber(list.Item),
        SoilWaterKind => "mm/m, in/ft",
        _ => "",
    };

    private static string Code(string text) => $"`{text}`";
}
