using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>In which order a survey is usually written.</summary>
internal static class SheetOrder
{
    /// <summary>Before which entry a new key stands.</summary>
    internal static int PlaceOf(SheetMap map, string[] above, string key)
    {
        int Rank(string of) => SurveyTable.GroupAt(string.Join('/', above))?.OrderOf(of) ?? -1;
        int rank = Rank(key);
        return rank < 0 ? map.Entries.Count : map.Entries.FindLastIndex(e => Rank(e.Key) <= rank) + 1;
    }

    /// <summary>Whether the mapping at a path is usually written on one line.</summary>
    internal static bool IsSmall(string path) => SurveyTable.GroupAt(path) is { IsOnOneLine: true };
}
