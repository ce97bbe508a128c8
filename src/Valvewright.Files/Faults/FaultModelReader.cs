using System.Globalization;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Yaml;
using Shown = Valvewright.Engine.Faults.Shown;

namespace Valvewright.Files.Faults;

/// <summary>Reads a fault model and holds its words to each other.</summary>
internal sealed class FaultModelReader(Findings findings)
{
    private const double MostMinutes = 1440;
    private const double SumTolerance = 0.51;
    private readonly Reading reading = new(findings);
    private Dictionary<string, TraceStep> steps = [];
    private string[] places = [], needs = [], hazards = [], complaints = [];

    public FaultModel Read(MapNode root)
    {
        MapReader map = new(root, FaultKeys.Root, reading, "model");
        ListOf<TracePlace> read = Each(map, "places", FaultKeys.Place, m => new TracePlace(Word(m, "place"), Number(m, "minutes", 0, MostMinutes), Text(m)), p => p.Name);
        places = [.. read.Select(p => p.Name)];
        ListOf<NamedThing> tools = Each(map, "needs", FaultKeys.Need, m => new NamedThing(Word(m, "need"), Text(m)), n => n.Name);
        needs = [.. tools.Select(n => n.Name)];
        ListOf<NamedThing> dangers = Each(map, "hazards", FaultKeys.Hazard, m => new NamedThing(Word(m, "hazard"), Text(m)), h => h.Name);
        hazards = [.. dangers.Select(h => h.Name), TraceCautions.Water];
        ListOf<Complaint> calls = Each(map, "complaints", FaultKeys.Complaint, m => new Complaint(Word(m, "complaint"), Text(m), Texts(m, "says")), c => c.Name);
        complaints = [.. calls.Select(c => c.Name)];
        ListOf<TraceStep> asked = Each(map, "steps", FaultKeys.Step, Step, s => s.Name);
        steps = asked.DistinctBy(s => s.Name).ToDictionary(s => s.Name);
        ListOf<Cause> causes = Each(map, "causes", FaultKeys.Cause, Cause, c => c.Name);
        return new FaultModel(
            map.Text("model", needed: true) ?? "", map.Text("source", needed: true) ?? "", Number(map, "prior cases", 1, 1e6), Percent(map, "wrong answers", 0.1, 30),
            Percent(map, "two at once", 0, 50), Percent(map, "something else", 0.1, 50), Percent(map, "sure", 60, 99.9), Number(map, "wrong diagnosis", 1, 1e6), read, tools, dangers, calls, causes, asked);
    }

    private ListOf<T> Each<T>(MapReader map, string key, KeySet keys, Func<MapReader, T> read, Func<T, string> name)
    {
        map.Need(key, $"a list of {key}");
        List<T> all = [];
        HashSet<string> names = [];
        foreach (SurveyNode node in map.Items(key))
        {
            if (map.AsMap(node, keys, key) is { } item)
            {
                all.Add(read(item));
                if (!names.Add(name(all[^1])))
                {
                    findings.Refuse(node, "each name once", $"'{name(all[^1])}' stands here twice");
                }
            }
        }

        return all.ToListOf();
    }

    private TraceStep Step(MapReader map)
    {
        Expected? measured = map.Word("expects", FaultKeys.Quantities);
        return new TraceStep(
            Word(map, "step"), Text(map), map.Inner("short", FaultKeys.Tongues) is { } brief ? Text(brief) : Text(map), OneOf(map, "place", places), Number(map, "minutes", 0.1, MostMinutes),
            map.YesNo("phone") ?? false, Several(map, "needs", needs), Several(map, "when", TraceFacts.Conditions), Several(map, "hazards", hazards), measured, Answers(map, measured is not null));
    }

    private ListOf<StepAnswer> Answers(MapReader map, bool measured)
    {
        ListOf<StepAnswer> answers = Each(map, "answers", FaultKeys.Answer, m => Answer(m, measured), a => a.Name);
        if (answers.Count < 2)
        {
            findings.Refuse(map.Map, "two answers or more", "One answer tells nothing");
        }
        else if (Math.Abs(answers.Sum(a => a.Usual) - 1) > SumTolerance / 100)
        {
            findings.Refuse(map.Map, "'usual' figures that sum to 100", $"The 'usual' figures sum to {answers.Sum(a => a.Usual) * 100:0.##}");
        }

        return answers;
    }

    private StepAnswer Answer(MapReader map, bool measured)
    {
        Readout? reads = null;
        if (map.Inner("reads", FaultKeys.Reads) is { } inner)
        {
            reads = inner.Has("times")
                ? new Readout(Number(inner, "times", 0.001, 1000), Percent(inner, "spread", 1, 200), 0, 0)
                : new Readout(null, 0, Number(inner, "from", 1e-6, 1e12), Number(inner, "to", 1e-6, 1e12));
            if (reads is { Times: null } && reads.From >= reads.To)
            {
                findings.Refuse(inner.Map, "'from' below 'to'", "The readings end before they begin");
            }
        }
        else if (measured)
        {
            findings.Refuse(map.Map, "'reads:' with times and spread, or from and to", "A step that is measured says for every state what the meter reads");
        }

        return new StepAnswer(Word(map, "answer"), Text(map), Percent(map, "usual", 0, 100), Texts(map, "findings"), reads);
    }

    private Cause Cause(MapReader map)
    {
        string name = Word(map, "cause");
        ListOf<Odds> says = Shares(map, "complaints", complaints);
        if (says.Count > 0 && Math.Abs(says.Sum(s => s.Share) - 1) > SumTolerance / 100)
        {
            findings.Refuse(map.Map, "complaints that sum to 100", $"The complaints of '{name}' sum to {says.Sum(s => s.Share) * 100:0.##}");
        }

        return new Cause(
            name, Text(map), Number(map, "weight", 0.001, 1e6), map.Text("group", needed: true) ?? "", Several(map, "when", TraceFacts.Conditions), says, Shows(map),
            map.Inner("do", FaultKeys.Tongues) is { } repair ? Text(repair) : Missing(map, "do"), map.Inner("parts", FaultKeys.Tongues) is { } parts ? Text(parts) : BothTongues.None,
            Several(map, "hazards", hazards), Number(map, "minutes", 0.1, MostMinutes));
    }

    private ListOf<Shown> Shows(MapReader map)
    {
        if (map.Get("shows") is not MapNode shows)
        {
            map.Need("shows", "steps with answers, such as 'click: {none: 95}'");
            return [];
        }

        List<Shown> all = [];
        foreach ((TextNode key, SurveyNode value) in shows.Entries)
        {
            if (!steps.TryGetValue(key.Text, out TraceStep? step))
            {
                findings.Refuse(key, Surveys.Yaml.Words.OneOf(steps.Keys), "The model has no such step", NearestWord.To(key.Text, steps.Keys));
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

    private ListOf<Odds> Shares(MapReader map, string key, string[] words) => map.Need(key, "words with percentages") is { } node ? Shares(node, words, key) : [];

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
                findings.Refuse(key, Surveys.Yaml.Words.OneOf(words), $"'{about}' has no such word", NearestWord.To(key.Text, words));
            }
            else if (value is TextNode text && TryNumber(text.Text, 0, 100, out double percent))
            {
                all.Add(new Odds(key.Text, percent / 100));
            }
            else
            {
                findings.Refuse(value, "a percentage from 0 to 100", "This is no percentage");
            }
        }

        return all.ToListOf();
    }

    private string Word(MapReader map, string key) => map.Text(key, needed: true) ?? "";

    private static BothTongues Text(MapReader map) => new(map.Text("en", needed: true, "a text in English") ?? "", map.Text("es", needed: true, "a text in Spanish") ?? "");

    private static BothTongues Missing(MapReader map, string key)
    {
        map.Need(key, "a text in both languages, {en: ..., es: ...}");
        return BothTongues.None;
    }

    private string OneOf(MapReader map, string key, string[] words) =>
        map.Need(key, Surveys.Yaml.Words.OneOf(words)) is { } node ? Known(map, node, key, words) : "";

    private ListOf<string> Several(MapReader map, string key, IReadOnlyList<string> words) => map.Items(key).Select(n => Known(map, n, key, words)).ToListOf();

    private static ListOf<string> Texts(MapReader map, string key) => map.Items(key).Select(n => map.AsText(n, "a word")?.Text ?? "").ToListOf();

    private string Known(MapReader map, SurveyNode node, string key, IReadOnlyList<string> words)
    {
        if (map.AsText(node, Surveys.Yaml.Words.OneOf(words)) is not { } text)
        {
            return "";
        }

        if (!words.Contains(text.Text))
        {
            findings.Refuse(text, Surveys.Yaml.Words.OneOf(words), $"This is no word for '{key}'", NearestWord.To(text.Text, words));
        }

        return text.Text;
    }

    private double Percent(MapReader map, string key, double least, double most) => Number(map, key, least, most) / 100;

    private double Number(MapReader map, string key, double least, double most)
    {
        Sentence expected = $"a number from {least} to {most}";
        if (map.Need(key, expected) is not { } node)
        {
            return least;
        }

        if (node is TextNode text && TryNumber(text.Text, least, most, out double number))
        {
            return number;
        }

        findings.Refuse(node, expected, $"'{key}' must be {expected}");
        return least;
    }

    private static bool TryNumber(string text, double least, double most, out double number) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number) && number >= least && number <= most;
}
