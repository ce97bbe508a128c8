using NodaTime;
using Valvewright.Engine.Faults;
using Valvewright.Files.Faults;

namespace Valvewright.Files.Tests.Faults;

/// <summary>
/// Cases as technicians tell them (common practice, invented sites): the cause is known, and every step says what it would have shown. The
/// trace asks; the story answers; what a story does not speak of is ordinary.
/// </summary>
public sealed class CasesOfTheTrade
{
    private const int GoalRight = 23;

    private static readonly Story[] Stories =
    [
        new("Median on the ring road, station 3 dry since the gas company dug in April", "never on", "wire broken",
            "by hand: nothing; click: none; box: wire cut; lately: digging; loop ohms: 4000000; coil ohms: 6.1; wire trace: broken; dig: " +
                "cut wire; watch: never opens; test coil: clicks"),
        new("Cemetery, old box by the chapel always full of water; the splice is a green lump", "never on", "splice bad",
            "by hand: nothing; click: none; box: splice; loop ohms: 38; coil ohms: 5.9; watch: never opens; wire trace: sound"),
        new("After the August thunderstorm one valve is dead, wire and box look perfect", "never on", "coil open",
            "by hand: nothing; click: none; lately: storm; loop ohms: 9000000; coil ohms: 9000000; coil swap: works now; watch: never opens"),
        new("Same storm, next controller: station 4 has no pulse, its valve runs on output 2", "never on", "output dead",
            "by hand: nothing; click: none; lately: storm; pulse: none; swap output: works now; test coil: none; loop ohms: 6.6; watch: " +
                "never opens"),
        new("The gardener tugged the wires when he hung a new padlock on the housing", "never on", "lead loose",
            "by hand: nothing; click: none; housing: loose lead; lately: wiring; swap output: works now; loop ohms: 6.3; watch: never opens"),
        new("New part-time gardener keyed in the card, station 4 was on the second page", "never on", "not in a program",
            "settings: not in a program"),
        new("Roses dry after a mower hit the box; somebody had shut the stem to stop the leak", "never on", "flow control shut",
            "by hand: nothing; flow control: shut; bleed: nothing; walk: even; running pressure: 2; lately: wiring; watch: never opens"),
        new("Limestone water; coil hums but the plunger is glued with lime", "never on", "plunger stuck",
            "by hand: nothing; click: faint; plunger: stuck; coil swap: works now; watch: never opens"),
        new("Trail head, nothing since the winter; the caretaker never opened the main again", "nothing on", "supply shut",
            "by hand: nothing; other stations: none; tap: none; shut-offs: shut; bleed: nothing; watch: never opens; static pressure: 1; " +
                "running pressure: 1; lately: startup"),
        new("Allotments, the tester left the preventer's handle across the pipe", "nothing on", "backflow shut",
            "by hand: nothing; other stations: none; backflow: shut; bleed: nothing; watch: never opens; running pressure: 1; lately: " +
                "startup"),
        new("Median, battery from two years ago, display nearly gone", "nothing on", "battery flat",
            "display: low sign; by hand: nothing; other stations: none; click: none; watch: never opens; fresh battery: works now; " +
                "battery volts: 4.1; battery age: longer; pulse: none; test coil: none; clock: wrong"),
        new("Dead display after a wet spring, ants nest on the board", "blank", "water in the controller",
            "display: blank; by hand: nothing; other stations: none; click: none; watch: never opens; housing: water; lately: storm; " +
                "pulse: none; test coil: none"),
        new("Blank display; the plug of the battery is green", "blank", "battery contacts",
            "display: blank; by hand: nothing; other stations: none; contacts: bad; battery volts: 9.1; pulse: none; watch: never opens; " +
                "fresh battery: no change; clock: wrong"),
        new("Blank display on a controller that somebody hit with a bat", "blank", "controller dead",
            "display: blank; by hand: nothing; other stations: none; click: none; housing: damage; lately: vandals; pulse: none; test " +
                "coil: none; watch: never opens"),
        new("Caller is sure it is broken; somebody had set ten days of rain delay before the feast", "nothing on", "rain delay",
            "settings: rain delay"),
        new("Whole bed dry in May; it was still switched off from winter", "nothing on", "switched off", "settings: switched off"),
        new("Sunny week, nothing runs; the rain sensor sits under a gutter that drips", "nothing on", "sensor blocks",
            "by hand: nothing; other stations: none; click: none; watch: never opens; sensor: runs now"),
        new("Well site, everything dead, the breaker of the pump had tripped", "nothing on", "pump fails",
            "by hand: nothing; other stations: none; tap: none; bleed: nothing; pump: none; watch: never opens; static pressure: 1; " +
                "running pressure: 1") { Pump = true },
        new("Lawn under water every morning; a stone the size of a pea under the diaphragm", "will not stop", "grit in the valve",
            "stop: runs on; watch: never closes; seep: heads; meter: moves; open valve: grit"),
        new("Fifteen-year-old valve, rubber like cardboard", "will not stop", "diaphragm torn",
            "stop: runs on; watch: never closes; seep: heads; meter: moves; open valve: torn"),
        new("Boys had opened the bleed screws along the path", "will not stop", "bleed open",
            "stop: runs on; watch: never closes; seep: heads; meter: moves; bleed screw: open; box: tampered; lately: vandals"),
        new("After the new coil went in, it waters when it should not and stops when it should start", "will not stop", "leads exchanged",
            "by hand: nothing; stop: runs on; watch: reversed; lately: wiring; swap leads: works now"),
        new("Runs all night once or twice a week; the battery still shows a full sign", "will not stop", "battery weak",
            "stop: runs on; click: faint; watch: never closes; fresh battery: works now; battery volts: 7.1; battery age: longer; pulse: " +
                "weak; test coil: faint"),
        new("A start for every station: four runs each night", "too long", "extra starts", "settings: extra starts"),
        new("Waters at noon over the visitors; 12:15 pm for 12:15 am", "wrong time", "wrong start or days", "settings: times or days"),
        new("Waters twelve hours out since the battery was changed", "wrong time", "clock wrong", "clock: wrong"),
        new("All heads sag since the main was repaired; the screen is full of sand", "weak", "filter clogged",
            "by hand: weak; other stations: weak; bleed: weak; walk: all low; filter: clogged; running pressure: 110"),
        new("Half the drip line dry, hard water, white crust on the emitters", "weak", "nozzles clogged", "walk: some low; nozzle: clogged")
            { Drip = true },
        new("New houses next door; at six in the evening the pressure halves", "weak", "low pressure",
            "by hand: weak; other stations: weak; tap: weak; bleed: weak; walk: all low; static pressure: 190; running pressure: 110"),
        new("The path is a brook when station 1 runs; planting crew went through the pipe", "gushes", "lateral broken",
            "by hand: weak; bleed: weak; walk: wet spot; dig: broken pipe; running pressure: 120; lately: digging"),
        new("A truck on the verge; one head is a geyser", "gushes", "head broken",
            "walk: broken head; by hand: weak; lately: digging; nozzle: clean"),
        new("Wet patch at the curb, worst ten minutes after each run, then it dries", "leaks", "drains at the lowest head",
            "seep: lowest head; stop: seeps"),
    ];

    [Fact]
    public void The_cause_ends_first_in_nearly_all()
    {
        List<string> wrong = [];
        foreach (Story story in Stories)
        {
            TraceView end = Play(story);
            if (end.End!.Causes is not [{ } named, ..] || named != story.Cause)
            {
                wrong.Add(
                    $"{story.Told}: {story.Cause}, but {string.Join(" + ", end.End.Causes)} ({end.End.Kind}, {end.Causes[0].Name} {end.Causes[0].Share:0.00})");
            }
        }

        Assert.True(Stories.Length >= 25, $"{Stories.Length} stories");
        Assert.True(Stories.Length - wrong.Count >= GoalRight && wrong.Count <= 2, string.Join('\n', wrong));
    }

    [Fact]
    public void Every_story_speaks_of_steps_and_causes_of_the_model() => Assert.All(Stories, s =>
    {
        FaultModel model = FaultModelFiles.Shipped;
        Assert.NotNull(model.CauseNamed(s.Cause));
        Assert.NotNull(model.ComplaintNamed(s.Complaint));
        Assert.All(s.Shows, a =>
            Assert.True(model.StepNamed(a.Step) is { } step && (a.Value is not null || step.AnswerNamed(a.Answer!) is not null),
                $"{a.Step}: {a.Answer}"));
    });

    private static TraceView Play(Story story)
    {
        FaultModel model = FaultModelFiles.Shipped;
        TraceFacts facts = new() { HasSensor = true, HasPump = story.Pump, Drips = story.Drip };
        Tracer tracer = new(model, facts);
        TraceCase trace = new() { Site = "x", Controller = "x", Station = 2, Complaint = story.Complaint,
            Began = new LocalDateTime(2026, 7, 1, 8, 0), Facts = facts };
        TraceView view = tracer.Look(trace);
        while (view.Next is { } next)
        {
            trace = trace.With(story.Shows.FirstOrDefault(a => a.Step == next.Step) ?? Ordinary(model.StepNamed(next.Step)!, facts));
            view = tracer.Look(trace);
        }

        return view;
    }

    private static TraceAnswer Ordinary(TraceStep step, TraceFacts facts) =>
        step.Measured is { } quantity ? new TraceAnswer(step.Name, Value: facts.Of(quantity) * 0.98)
            : new TraceAnswer(step.Name, step.Answers[0].Name);

    /// <summary>A case as it is told.</summary>
    /// <param name="Told">What happened.</param>
    /// <param name="Complaint">What the caller said.</param>
    /// <param name="Cause">What it was.</param>
    /// <param name="Found">What steps showed.</param>
    private sealed record Story(string Told, string Complaint, string Cause, string Found)
    {
        public bool Pump { get; init; }

        public bool Drip { get; init; }

        public IReadOnlyList<TraceAnswer> Shows { get; } =
        [
            .. Found.Split("; ").Select(part => part.Split(": "))
                .Select(p => double.TryParse(p[1], System.Globalization.CultureInfo.InvariantCulture, out double value)
                ? new TraceAnswer(p[0], Value: value)
                : new TraceAnswer(p[0], p[1])),
        ];
    }
}
