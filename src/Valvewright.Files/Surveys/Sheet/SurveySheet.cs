using System.Globalization;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>
/// A survey as it is being written: every value as the person typed it, remarks where they were. A value is named by its path, the keys and
/// numbers of items (from 0) with strokes between: <c>controllers/0/zones/2/plants/kind</c>.
/// </summary>
public sealed class SurveySheet
{
    private readonly MapNode root;
    private readonly List<string> tail;

    private SurveySheet(MapNode root, List<string> tail) => (this.root, this.tail) = (root, tail);

    /// <summary>A blank sheet.</summary>
    public static SurveySheet Blank() => new(new MapNode(), []);

    /// <summary>Takes a survey's text apart; null where it is not YAML, and <see cref="SurveyFiles.ParseApart"/> says why.</summary>
    public static SurveySheet? Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return YamlTree.Read(text, new Findings("survey")) is { } root ? new SurveySheet(root, SheetRemarks.Attach(text, root)) : null;
    }

    /// <summary>A path one step longer.</summary>
    public static string Join(string path, string step) => SurveyNode.Join(path ?? "", step);

    /// <summary>A path one item longer.</summary>
    public static string Join(string path, int item) => Join(path, item.ToString(CultureInfo.InvariantCulture));

    /// <summary>The survey as YAML.</summary>
    public string Write() => SheetWriter.Write(root, tail);

    /// <summary>A value as typed; empty where there is none.</summary>
    public string Text(string path) => Find(path) is TextNode text ? text.Text : "";

    /// <summary>The values of a list; a single value stands for a list of one.</summary>
    public ListOf<string> Texts(string path) => Find(path) switch
    {
        ListNode list => list.Items.OfType<TextNode>().Select(t => t.Text).ToListOf(),
        TextNode { Text.Length: > 0 } text => [text.Text],
        _ => [],
    };

    /// <summary>Whether there is a value, list or mapping.</summary>
    public bool Has(string path) => Find(path) is not null and not TextNode { Text: "" };

    /// <summary>Whether a mapping with keys of its own stands there.</summary>
    public bool IsMap(string path) => Find(path) is MapNode;

    /// <summary>How many items a list has.</summary>
    public int Count(string path) => Find(path) is ListNode list ? list.Entries.Count : 0;

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
            Put(path, new TextNode(value));
        }
    }

    /// <summary>Puts a list of values in its place; an empty one takes the key away.</summary>
    public void SetTexts(string path, IEnumerable<string> texts)
    {
        ArgumentNullException.ThrowIfNull(texts);
        ListNode list = new() { IsOnOneLine = true };
        list.Entries.AddRange(texts.Select(t => t.Trim()).Where(t => t.Length > 0).Select(t => new NodeEntry(new TextNode(t))));
        if (list.Entries.Count == 0)
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
        if (Find(path) is not ListNode list)
        {
            list = new ListNode();
            Put(path, list);
        }

        list.Entries.Add(new NodeEntry(new MapNode()));
        return list.Entries.Count - 1;
    }

    /// <summary>Takes a value, a mapping or an item of a list away; a mapping that is empty then goes too.</summary>
    public void Remove(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string[] steps = path.Split('/');
        string parentPath = string.Join('/', steps[..^1]);
        switch (steps.Length == 1 ? root : Find(parentPath))
        {
            case MapNode map:
                map.Entries.RemoveAll(e => e.Key.Text == steps[^1]);
                if (map.Entries.Count == 0 && steps.Length > 1 && !IsItem(steps[^2]))
                {
                    Remove(parentPath);
                }

                break;
            case ListNode list when IsItem(steps[^1]) && int.Parse(steps[^1], CultureInfo.InvariantCulture) is var number
                && number < list.Entries.Count:
                list.Entries.RemoveAt(number);
                if (list.Entries.Count == 0)
                {
                    Remove(parentPath);
                }

                break;
            case TextNode when ShortKey(parentPath) == steps[^1]:
                Remove(parentPath);
                break;
        }
    }

    private static bool IsItem(string step) => step.Length > 0 && step.All(char.IsAsciiDigit);

    private SurveyNode? Find(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        SurveyNode? at = root;
        string before = "";
        foreach (string step in path.Split('/'))
        {
            at = at switch
            {
                MapNode map => map[step]?.Value,
                ListNode list when IsItem(step) => list.Items.ElementAtOrDefault(int.Parse(step, CultureInfo.InvariantCulture)),
                TextNode text when ShortKey(before) == step => text,
                _ => null,
            };
            before = Join(before, step);
        }

        return at;
    }

    private void Put(string path, SurveyNode value)
    {
        string[] steps = path.Split('/');
        SurveyNode at = root;
        for (int i = 0; i < steps.Length; i++)
        {
            bool isLast = i == steps.Length - 1;
            string here = string.Join('/', steps[..(i + 1)]);
            NodeEntry entry = EntryOf(at, steps, i);
            if (isLast)
            {
                entry.Value = value;
                return;
            }

            // One word for a whole mapping stays one while nothing else is said.
            if (entry.Value is TextNode && i == steps.Length - 2 && value is TextNode && ShortKey(here) == steps[i + 1])
            {
                entry.Value = value;
                return;
            }

            entry.Value = entry.Value switch
            {
                TextNode { Text.Length: > 0 } word when ShortKey(here) is { } key => Spelled(key, word),
                TextNode => IsItem(steps[i + 1]) ? new ListNode()
                    : new MapNode { IsOnOneLine = SurveyTable.GroupAt(here) is { IsOnOneLine: true } },
                { } there => there,
            };
            at = entry.Value;
        }
    }

    /// <summary>The key that one word in place of the mapping at a path is the value of.</summary>
    private static string? ShortKey(string path) => (SurveyTable.At(path)?.Kind as KeysKind)?.ShortKey;

    private static MapNode Spelled(string key, TextNode word) =>
        new() { IsOnOneLine = true, Entries = { new NodeEntry(new TextNode(key), word) } };

    /// <summary>The entry of a step, made in its usual place where it is not there.</summary>
    private static NodeEntry EntryOf(SurveyNode at, string[] steps, int i)
    {
        switch (at)
        {
            case ListNode list:
                int number = int.Parse(steps[i], CultureInfo.InvariantCulture);
                while (list.Entries.Count <= number)
                {
                    list.Entries.Add(new NodeEntry(new MapNode()));
                }

                return list.Entries[number];
            case MapNode map:
                if (map[steps[i]] is not { } entry)
                {
                    entry = new NodeEntry(new TextNode(steps[i]), new TextNode(""));
                    map.Entries.Insert(PlaceOf(map, string.Join('/', steps[..i]), steps[i]), entry);
                }

                return entry;
            default:
                throw new InvalidOperationException($"There is nothing to put '{steps[i]}' in.");
        }
    }

    /// <summary>Before which entry a new key comes in the usual order.</summary>
    private static int PlaceOf(MapNode map, string path, string key)
    {
        FieldGroup? group = SurveyTable.GroupAt(path);
        int rank = group?.OrderOf(key) ?? -1;
        return rank < 0 ? map.Entries.Count : map.Entries.FindLastIndex(e => group!.OrderOf(e.Key.Text) <= rank) + 1;
    }
}
