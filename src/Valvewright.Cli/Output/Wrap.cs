namespace Valvewright.Cli.Output;

/// <summary>Breaks text into lines at spaces; a space that does not break (U+00A0) keeps its place and is printed as a plain one.</summary>
internal static class Wrap
{
    /// <summary>Lines of at most <paramref name="width"/> columns; a word longer than that is cut.</summary>
    public static IEnumerable<string> Lines(string text, int width, int hang = 0)
    {
        foreach (string paragraph in text.ReplaceLineEndings("\n").Split('\n'))
        {
            int indent = paragraph.Length - paragraph.TrimStart(' ').Length;
            string rest = paragraph.TrimEnd();
            while (rest.Length > width)
            {
                int cut = rest.LastIndexOf(' ', width);
                bool atSpace = cut > Math.Min(indent + hang, width / 2);
                yield return Printed(rest[..(atSpace ? cut : width)]);
                string next = rest[(atSpace ? cut : width)..].TrimStart();
                rest = new string(' ', Math.Min(indent + hang, width / 2)) + next;
            }

            yield return Printed(rest);
        }
    }

    private static string Printed(string line) => line.TrimEnd().Replace('\u00a0', ' ');
}
