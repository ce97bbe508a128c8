using System.Globalization;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;
using Shown = Valvewright.Engine.Faults.Shown;

namespace Valvewright.Files.Faults;

/// <summary>Reads a fault model and holds its words to each other.</summary>
internal sealed class FaultModelReader(Findings findings)
{
    private const double SumTolerance = 0.51;
    private readonly ReadingContext context = new(findings);
    private Dictionary<string, TraceStep> steps = [];
    private string[] places = [], needs = [], hazards = [], complaints = [];

    public FaultModel Read(MapNode root)
    {
        MapReader map = new(root, FaultKeys.Root, context, "model");
        ListOf<TracePlace> read =
            Each(map, "places", m => new TracePlace(Word(m, "place"), m.ValueOr("minutes", 0.0), Text(m)), p => p.Name);
        places = [.. read.Select(p => p.Name)];
        ListOf<NamedThing> tools = Each(map, "needs", m => new NamedThing(Word(m, "need"), Text(m)), n => n.Name);
        needs = [.. tools.Select(n => n.Name)];
        ListOf<NamedThing> dangers = Each(map, "hazards", m => new NamedThing(Word(m, "hazard"), Text(m)), h => h.Name);
        hazards = [.. dangers.Select(h => h.Name), TraceCautions.Water];
        ListOf<Complaint> calls = Each(map, "complaints", m => new Complaint(Word(m, "complaint"), Text(m), Texts(m, "says")), c => c.Name);
        complaints = [.. calls.Select(c => c.Name)];
        ListOf<TraceStep> asked = Each(map, "steps", Step, s => s.Name);
        steps = asked.DistinctBy(s => s.Name).ToDictionary(s => s.Name);
        ListOf<Cause> causes = Each(map, "causes", Cause, c => c.Name);
        return new FaultModel(
            Word(map, "model"), Word(map, "source"), map.ValueOr("prior cases", 1.0), Percent(map, "wrong answers"),
                Percent(map, "two at once"), Percent(map, "something else"),
            Percent(map, "sure"), map.ValueOr("wrong diagnosis", 1.0), read, tools, dangers, calls, causes, asked);
    }

    private ListOf<T> Each<T>(MapReader map, string key, Func<MapReader, T> read, Func<T, string> name)
    {
        List<T> all = [];
        HashSet<string> names = [];
        foreach (MapReader item in map.Maps(key))
        {
            all.Add(read(item));
            if (!names.Add(name(all[^1])))
            {
                findings.Refuse(item.Map, "each name once", $"'{name(all[^1])}' is here twice");
            }
        }

        return all.ToListOf();
    }

    private TraceStep Step(MapReader map)
    {
        Expected? measured = map.Get("expects") is { } quantity ? Quantity(map, quantity) : null;
        return new TraceStep(
            Word(map, "step"), Text(map), map.Inner("short") is { } brief ? Text(brief) : Text(map), OneOf(map, "place", places),
                map.ValueOr("minutes", 1.0),
            map.ValueOr("phone", false), Several(map, "needs", needs), Several(map, "when", TraceFacts.Conditions),
                Several(map, "hazards", hazards), measured, Answers(map, measured is not null));
    }

    private ListOf<StepAnswer> Answers(MapReader map, bool measured)
    {
        ListOf<StepAnswer> answers = Each(map, "answers", m => Answer(m, measured), a => a.Name);
        if (answers.Count < 2)
        {
            findings.Refuse(map.Map, "two answers or more", "One answer tells nothing");
        }
        else if (Math.Abs(answers.Sum(a => a.Usual) - 1) > SumTolerance / 100)
        {
            findings.Refuse(map.Map, "'usual' figures that sum to 100",
                $"The 'usual' figures sum to {answers.Sum(a => a.Usual) * 100:0.##}");
        }

        return answers;
    }

    private StepAnswer Answer(MapReader map, bool measured)
    {
        Readout? reads = null;
        if (map.Inner("reads") is { } inner)
        {
            reads = inner.Has("times")
                ? new Readout(inner.ValueOr("times", 1.0), inner.ValueOr("spread", 10.0, needed: true) / 100, 0, 0)
                : new Readout(null, 0, inner.ValueOr("from", 1.0, needed: true), inner.ValueOr("to", 2.0, needed: true));
            if (reads is { Times: null } && reads.From >= reads.To)
            {
                findings.Refuse(inner.Map, "'from' below 'to'", "The readings end before they begin");
            }
        }
        else if (measured)
        {
            findings.Refuse(map.Map, "'reads:' with times and spread, or from and to",
                "A step that is measured says for every state what the meter reads");
        }

        return new StepAnswer(Word(map, "answer"), Text(map), Percent(map, "usual"), Texts(map, "findings"), reads);
    }

    private Cause Cause(MapReader map)
    {
        string name = Word(map, "cause");
        ListOf<Odds> says = Shares(map, "complaints", complaints);
        if (says.Count > 0 && Math.Abs(says.Sum(s => s.Share) - 1) > SumTolerance / 100)
        {
            findings.Refuse(map.Map, "complaints that sum to 100",
                $"The complaints of '{name}' sum to {says.Sum(s => s.Share) * 100:0.##}");
        }

        return new Cause(
            name, Text(map), map.ValueOr("weight", 1.0), Word(map, "group"), Several(map, "when", TraceFacts.Conditions), says, Shows(map),
            map.Inner("do") is { } repair ? Text(repair) : BothTongues.None, map.Inner("parts") is { } parts ? Text(parts)
                : BothTongues.None,
            Several(map, "hazards", hazards), map.ValueOr("minutes", 1.0));
    }

    private ListOf<Shown> Shows(MapReader map)
    {
        if (map.Get("shows") is not MapNode shows)
        {
            if (map.Find("shows") is { } other)
            {
                findings.Refuse(other, "steps with answers, such as {click: {none: 95}}", "'shows' is written with keys");
            }

            return [];
        }

        List<Shown> all = [];
        foreach ((TextNode key, SurveyNode value) in shows.Entries)
        {
            if (!steps.TryGetValue(key.Text, out TraceStep? step))
            {
                findings.Refuse(key, WordList<string>.OneOf(steps.Keys), "The model has no such step",
                    NearestWord.To(key.Text, steps.Keys));
                continue;
            }

            ListOf<Odds> answers = Shares(value, [.. step.Answers.Select(a => a.Name)], key.Text);
            if (answers.Sum(a => a.Share) > 1 + (SumTolerance / 100))
            {
                findings.Refuse(value, "at most 100 together", $"The answers sum to {answers.Sum(a => a.Share) * 100:0.##}");
            }

            all.Add(new Shown(step.Name, answers));
        }

        return all.ToListOf();
    }

    private ListOf<Odds> Shares(MapReader map, string key, string[] words) => map.Find(key) is { } node ? Shares(node, words, key) : [];

    private ListOf<Odds> Shares(SurveyNode node, string[] words, string about)
    {
        if (node is not MapNode map)
        {
            findings.Refuse(node, "words with percentages, such as {yes: 90}", $"'{about}' is written with percentages");
            return [];
        }

        List<Odds> all = [];
        foreach ((TextNode key, SurveyNode value) in map.Entries)
        {
            if (!words.Contains(key.Text))
            {
                findings.Refuse(key, WordList<string>.OneOf(words), $"'{about}' has no such word", NearestWord.To(key.Text, words));
            }
            else if (value is TextNode text && TryNumber(text.Text, 0, 100, out double percent))
            {
                all.Add(new Odds(key.Text, percent / 100));
            }
            else
            {
                findings.Refuse(value, "a percentage from 0 to 100", "Not a percentage");
            }
        }

        return all.ToListOf();
    }

    private static string Word(MapReader map, string key) => map.ValueOr(key, "");

    private static BothTongues Text(MapReader map) => new(Word(map, "en"), Word(map, "es"));

    private Expected? Quantity(MapReader map, SurveyNode node) =>
        FaultKeys.Quantities.TryGetValue(Known(map, node, "expects", [.. FaultKeys.Quantities.Keys]), out Expected quantity)
            ? quantity : null;

    private string OneOf(MapReader map, string key, string[] words) =>
        map.Find(key) is { } node ? Known(map, node, key, words) : "";

    private ListOf<string> Several(MapReader map, string key, IReadOnlyList<string> words) =>
        map.Items(key).Select(n => Known(map, n, key, words)).ToListOf();

    private static ListOf<string> Texts(MapReader map, string key) =>
        map.Items(key).Select(n => map.AsText(n, "a word")?.Text ?? "").ToListOf();

    private string Known(MapReader map, SurveyNode node, string key, IReadOnlyList<string> words)
    {
        if (map.AsText(node, WordList<string>.OneOf(words)) is not { } text)
        {
            return "";
        }

        if (!words.Contains(text.Text))
        {
            findings.Refuse(text, WordList<string>.OneOf(words), $"Unknown word for '{key}'", NearestWord.To(text.Text, words));
        }

        return text.Text;
    }

    private static double Percent(MapReader map, string key) => map.ValueOr(key, 1.0) / 100;

    private static bool TryNumber(string text, double least, double most, out double number) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number) && number >= least
            && number <= most;
}
