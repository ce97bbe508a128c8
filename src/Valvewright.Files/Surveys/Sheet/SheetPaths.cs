using System.Globalization;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>Which value of a survey stands where in its text.</summary>
internal sealed class SheetPaths
{
    private readonly Dictionary<(int Line, int Column), string> values = [];
    private readonly Dictionary<(int Line, int Column), string> wholes = [];

    internal SheetPaths(MapNode root) => Walk(root, "");

    /// <summary>The path that a problem is about; empty where it is about the whole.</summary>
    internal string Of(Problem problem)
    {
        (int, int) at = (problem.Line, problem.Column);
        if (problem.Found.StartsWith("no '", StringComparison.Ordinal) && problem.Found.EndsWith('\'') && wholes.TryGetValue(at, out string? map))
        {
            return SurveySheet.Join(map, problem.Found[4..^1]);
        }

        return values.TryGetValue(at, out string? path) || wholes.TryGetValue(at, out path) ? path : "";
    }

    private void Walk(SurveyNode node, string path)
    {
        switch (node)
        {
            case MapNode map:
                // Where a mapping and its list begin in one place the mapping is meant; where a mapping and its first key do, the key is.
                wholes[(map.Line, map.Column)] = path;
                foreach ((TextNode key, SurveyNode value) in map.Entries)
                {
                    values[(key.Line, key.Column)] = SurveySheet.Join(path, key.Text);
                    Walk(value, SurveySheet.Join(path, key.Text));
                }

                break;
            case ListNode list:
                wholes[(list.Line, list.Column)] = path;
                for (int i = 0; i < list.Items.Count; i++)
                {
                    Walk(list.Items[i], SurveySheet.Join(path, i.ToString(CultureInfo.InvariantCulture)));
                }

                break;
            default:
                values.TryAdd((node.Line, node.Column), path);
                break;
        }
    }
}
