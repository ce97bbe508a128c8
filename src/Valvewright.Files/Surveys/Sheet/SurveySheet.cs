using System.Globalization;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>
/// A survey as it is being written: every value as the person typed it, remarks where they were. A value is named by its path, the keys and
/// numbers of items (from 0) with strokes between: <c>controllers/0/zones/2/plants/kind</c>.
/// </summary>
public sealed class SurveySheet
{
    private readonly SheetMap root;
    private readonly List<string> tail;

    private SurveySheet(SheetMap root, List<string> tail) => (this.root, this.tail) = (root, tail);

    /// <summary>A blank sheet.</summary>
    public static SurveySheet Blank() => new(new SheetMap(), []);

    /// <summary>Takes a survey's text apart; null where it is not YAML, and <see cref="SurveyFiles.ParseApart"/> says why.</summary>
    public static SurveySheet? Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (YamlTree.Read(text, new Findings("survey")) is not { } tree)
        {
            return null;
        }

        (SheetMap root, List<string> tail) = SheetReader.Read(text, tree);
        return new SurveySheet(root, tail);
    }

    /// <summary>A path one step longer.</summary>
    public static string Join(string path, string step) => string.IsNullOrEmpty(path) ? step : $"{path}/{step}";

    /// <summary>A path one item longer.</summary>
    public static string Join(string path, int item) => Join(path, item.ToString(CultureInfo.InvariantCulture));

    /// <summary>The survey as YAML.</summary>
    public string Write() => SheetWriter.Write(root, tail);

    /// <summary>The survey as the reader understands it, each problem and question with the path that it is about.</summary>
    public JudgedSheet Judge()
    {
        string text = Write();
        SurveyReading reading = SurveyFiles.ParseApart(text, "survey");
        SheetPaths? paths = YamlTree.Read(text, new Findings("survey")) is { } tree ? new SheetPaths(tree) : null;
        return new JudgedSheet(text, reading, Placed(reading.Problems), Placed(reading.Warnings));

        ListOf<PlacedProblem> Placed(ListOf<Problem> problems) => problems.Select(p => new PlacedProblem(paths?.Of(p) ?? "", p)).ToListOf();
    }

    /// <summary>A value as typed; empty where there is none.</summary>
    public string Text(string path) => Find(path) is SheetText text ? text.Text : "";

    /// <summary>The values of a list; a single value stands for a list of one.</summary>
    public ListOf<string> Texts(string path) => Find(path) switch
    {
        SheetList list => list.Items.Select(i => i.Value).OfType<SheetText>().Select(t => t.Text).ToListOf(),
        SheetText { Text.Length: > 0 } text => [text.Text],
        _ => [],
    };

    /// <summary>Whether there is a value, list or mapping.</summary>
    public bool Has(string path) => Find(path) is not null and not SheetText { Text: "" };

    /// <summary>Whether a mapping with keys of its own stands there.</summary>
    public bool IsMap(string path) => Find(path) is SheetMap;

    /// <summary>How many items a list has.</summary>
    public int Count(string path) => Find(path) is SheetList list ? list.Items.Count : 0;

    /// <summary>Puts a value in its place, making what is needed above it; an empty one takes the key away.</summary>
    public void Set(string path, string? text)
    {
        string value = (text ?? "").Trim();
        if (value.Length == 0)
        {
            Remove(path);
        }
        else
        {
            Put(path, new SheetText(value));
        }
    }

    /// <summary>Puts a list of values in its place; an empty one takes the key away.</summary>
    public void SetTexts(string path, IEnumerable<string> texts)
    {
        ArgumentNullException.ThrowIfNull(texts);
        SheetList list = new() { IsOnOneLine = true };
        list.Items.AddRange(texts.Select(t => t.Trim()).Where(t => t.Length > 0).Select(t => new SheetEntry("", new SheetText(t))));
        if (list.Items.Count == 0)
        {
            Remove(path);
        }
        else
        {
            Put(path, list);
        }
    }

    /// <summary>Adds an empty item to a list; answers its number.</summary>
    public int AddItem(string path)
    {
        if (Find(path) is not SheetList list)
        {
            list = new SheetList();
            Put(path, list);
        }

        list.Items.Add(new SheetEntry("", new SheetMap()));
        return list.Items.Count - 1;
    }

    /// <summary>Takes a value, a mapping or an item of a list away; a mapping that is empty then goes too.</summary>
    public void Remove(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string[] steps = path.Split('/');
        string parentPath = string.Join('/', steps[..^1]);
        switch (steps.Length == 1 ? root : Find(parentPath))
        {
            case SheetMap map:
                map.Entries.RemoveAll(e => e.Key == steps[^1]);
                if (map.Entries.Count == 0 && steps.Length > 1 && !IsItem(steps[^2]))
                {
                    Remove(parentPath);
                }

                break;
            case SheetList list when IsItem(steps[^1]) && int.Parse(steps[^1], CultureInfo.InvariantCulture) is var number && number < list.Items.Count:
                list.Items.RemoveAt(number);
                if (list.Items.Count == 0)
                {
                    Remove(parentPath);
                }

                break;
            case SheetText when ShortKey(parentPath) == steps[^1]:
                Remove(parentPath);
                break;
        }
    }

    private static bool IsItem(string step) => step.Length > 0 && step.All(char.IsAsciiDigit);

    private SheetNode? Find(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        SheetNode? at = root;
        string before = "";
        foreach (string step in path.Split('/'))
        {
            at = at switch
            {
                SheetMap map => map[step]?.Value,
                SheetList list when IsItem(step) => list.Items.ElementAtOrDefault(int.Parse(step, CultureInfo.InvariantCulture))?.Value,
                SheetText text when ShortKey(before) == step => text,
                _ => null,
            };
            before = Join(before, step);
        }

        return at;
    }

    private void Put(string path, SheetNode value)
    {
        string[] steps = path.Split('/');
        SheetNode at = root;
        for (int i = 0; i < steps.Length; i++)
        {
            bool isLast = i == steps.Length - 1;
            string here = string.Join('/', steps[..(i + 1)]);
            SheetEntry entry = EntryOf(at, steps, i);
            if (isLast)
            {
                entry.Value = value;
                return;
            }

            // One word for a whole mapping stays one while nothing else is said.
            if (entry.Value is SheetText && i == steps.Length - 2 && value is SheetText && ShortKey(here) == steps[i + 1])
            {
                entry.Value = value;
                return;
            }

            entry.Value = entry.Value switch
            {
                SheetText { Text.Length: > 0 } word when ShortKey(here) is { } key => Spelled(key, word),
                SheetText => IsItem(steps[i + 1]) ? new SheetList() : new SheetMap { IsOnOneLine = SheetOrder.IsSmall(here) },
                { } there => there,
            };
            at = entry.Value;
        }
    }

    /// <summary>The key that one word in place of the mapping at a path is the value of.</summary>
    private static string? ShortKey(string path) => (SurveyTable.At(path)?.Kind as KeysKind)?.ShortKey;

    private static SheetMap Spelled(string key, SheetText word)
    {
        SheetMap map = new() { IsOnOneLine = true };
        map.Entries.Add(new SheetEntry(key, word));
        return map;
    }

    /// <summary>The entry of a step, made in its usual place where it is not there.</summary>
    private static SheetEntry EntryOf(SheetNode at, string[] steps, int i)
    {
        switch (at)
        {
            case SheetList list:
                int number = int.Parse(steps[i], CultureInfo.InvariantCulture);
                while (list.Items.Count <= number)
                {
                    list.Items.Add(new SheetEntry("", new SheetMap()));
                }

                return list.Items[number];
            case SheetMap map:
                if (map[steps[i]] is not { } entry)
                {
                    entry = new SheetEntry(steps[i], new SheetText(""));
                    map.Entries.Insert(SheetOrder.PlaceOf(map, steps[..i], steps[i]), entry);
                }

                return entry;
            default:
                throw new InvalidOperationException($"There is nothing to put '{steps[i]}' in.");
        }
    }
}
