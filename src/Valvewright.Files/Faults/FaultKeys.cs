using Valvewright.Engine.Faults;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Faults;

/// <summary>The keys and words of a fault model; each stands in its schema under the same name.</summary>
internal static class FaultKeys
{
    private const double MostMinutes = 1440;
    private static readonly SurveyField[] Texts = [Text("en", "a text in English"), Text("es", "a text in Spanish")];
    private static readonly SurveyField When = Words("when"), Needs = Words("needs"), Hazards = Words("hazards");

    internal static readonly FieldGroup Tongues = new("text", "a text", [.. Texts]);
    internal static readonly FieldGroup Place = new("place", "a place", [Name("place"), Number("minutes", 0, MostMinutes), .. Texts]);
    internal static readonly FieldGroup Need = new("need", "a need", [Name("need"), .. Texts]);
    internal static readonly FieldGroup Hazard = new("hazard", "a hazard", [Name("hazard"), .. Texts]);
    internal static readonly FieldGroup Complaint = new("complaint", "a complaint", [Name("complaint"), .. Texts, Words("says")]);

    internal static readonly FieldGroup Reads = new(
        "reads", "'reads'",
        new("times", new NumberKind("a multiple", 0.001, 1000)), new("spread", new NumberKind("a percentage", 1, 200)),
        new("from", new NumberKind("a reading", 1e-6, 1e12)), new("to", new NumberKind("a reading", 1e-6, 1e12)));

    internal static readonly FieldGroup Answer = new(
        "answer", "an answer", [Name("answer"), Number("usual", 0, 100), .. Texts, Words("findings"), new("reads", new KeysKind(Reads))]);

    internal static readonly FieldGroup Step = new(
        "step", "a step",
        [
            Name("step"), Name("place"), Number("minutes", 0.1, MostMinutes), new("phone", new YesNoKind()), When, Needs, Hazards,
                new("expects", new TextKind("what is measured")),
            .. Texts, new("short", new KeysKind(Tongues)), List("answers", Answer),
        ]);

    internal static readonly FieldGroup Cause = new(
        "cause", "a cause",
        [
            Name("cause"), Number("weight", 0.001, 1e6), Name("group"), When, .. Texts,
                Text("complaints", "words with percentages, such as {never on: 90, sometimes: 10}"),
            Text("shows", "steps with answers, such as {click: {none: 95}}"), new("do", new KeysKind(Tongues)) { IsNeeded = true },
                new("parts", new KeysKind(Tongues)), Hazards,
            Number("minutes", 0.1, MostMinutes),
        ]);

    internal static readonly FieldGroup Root = new(
        "fault model", "a fault model",
        Name("model"), Name("source"), Number("prior cases", 1, 1e6), Number("wrong answers", 0.1, 30), Number("two at once", 0, 50),
            Number("something else", 0.1, 50),
        Number("sure", 60, 99.9), Number("wrong diagnosis", 1, 1e6), List("places", Place), List("needs", Need), List("hazards", Hazard),
            List("complaints", Complaint),
        List("steps", Step), List("causes", Cause));

    internal static readonly Dictionary<string, Expected> Quantities = new()
    {
        ["battery volts"] = Expected.BatteryVolts,
        ["loop ohms"] = Expected.LoopOhms,
        ["coil ohms"] = Expected.CoilOhms,
        ["static pressure"] = Expected.StaticPressure,
        ["running pressure"] = Expected.RunningPressure,
    };

    internal static IReadOnlyList<FieldGroup> All { get; } = [Root, Place, Need, Hazard, Complaint, Step, Answer, Reads, Tongues, Cause];

    private static SurveyField Name(string key) => new(key, new TextKind()) { IsNeeded = true };

    private static SurveyField Text(string key, string what) => new(key, new TextKind(what)) { IsNeeded = true };

    private static SurveyField Words(string key) => new(key, new ListKind(new TextKind("a word")));

    private static SurveyField Number(string key, double least, double most) =>
        new(key, new NumberKind("a number", least, most)) { IsNeeded = true };

    private static SurveyField List(string key, FieldGroup group) => new(key, new ListKind(new KeysKind(group))) { IsNeeded = true };
}
