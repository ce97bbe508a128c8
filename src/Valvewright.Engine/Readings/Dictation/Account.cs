using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Rules;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>Makes a reading of an interpretation, and accounts for every word: what is doubtful, and which settings rest on it.</summary>
internal sealed partial class Account(Hearing hear, IReadOnlyList<Step> steps)
{
    private readonly string[] letters = Belonging.Of(hear, steps);
    private readonly int[] statements = Statements(hear, steps);
    private readonly SortedDictionary<char, ProgramNotes> programs = [];
    private readonly List<(int Step, DoubtfulPart Part)> settings = [];
    private readonly List<(int Step, Question Question, bool LeftOut)> asked = [];
    private string? controller;
    private ClockShown? clock;
    private LocalDateTime? readAt;
    private int? percent;
    private bool? off;
    private int? holdDays;
    private int now;

    public ReadText Read()
    {
        HashSet<int> withdrawn = Withdrawn();
        for (now = 0; now < steps.Count; now++)
        {
            foreach (Said said in steps[now].Says)
            {
                if (said is LeavesOut left)
                {
                    asked.Add((now, new Question(
                        "", NearestTo(now), left.Why is { } why ? (Sentence)$"Left out: {why}" : "Not understood; left out"), true));
                }
                else if (!withdrawn.Contains(now))
                {
                    Take(said);
                }
            }

            asked.AddRange(steps[now].Asks.Select(q => (now, q, false)));
            if (steps[now].Says.Any(s => s is Hedges))
            {
                asked.Add((now, new Question("", "", "Said as uncertain"), false));
            }
        }

        Reading reading = new()
        {
            Controller = controller, ReadAt = readAt, Clock = clock, Percent = percent, Off = off, RainHoldDays = holdDays,
            Programs = programs.Select(p => p.Value.ToProgram(p.Key)).ToListOf(),
        };
        return new ReadText(
            reading, asked.Select(a => ToDoubt(a.Step, a.Question, a.LeftOut)).OrderBy(d => d.Line).ThenBy(d => d.Column).ToListOf());
    }

    private Doubt ToDoubt(int step, Question question, bool leftOut)
    {
        Step at = steps[step];
        Token first = hear[at.From]!;
        string found = string
            .Concat(Enumerable.Range(at.From, at.End - at.From).Select(i => (i > at.From && !hear[i]!.Glued ? " " : "") + hear[i]!.Typed));
        IEnumerable<DoubtfulPart> parts = settings.Where(s => s.Step == step).Select(s => s.Part);
        parts = parts.Concat(question.Elsewhere?.SelectMany(p => Placed(p, step)) ?? []);
        bool opens = at.Says.Any(s => s is OpensProgram);
        if (leftOut || opens || at.Says.Any(s => s is TakesBack or Hedges) || at.Says.Count == 0)
        {
            // A word left out may have said of what the rest is: of all that was said in its statement, and on to the next program.
            int next = Enumerable.Range(step + 1, steps.Count - step - 1).FirstOrDefault(
                i => steps[i].Says.Any(s => s is OpensProgram), steps.Count);
            bool near = at.Says.Any(s => s is Hedges);
            parts = parts.Concat(settings.Where(
                s => (statements[s.Step] == statements[step] && !opens) || (s.Step >= step && s.Step < next && !near)).Select(s => s.Part));
            parts = parts.Concat(opens ? letters[step].SelectMany(l => settings.Where(s => s.Part.Program == l).Select(s => s.Part)) : []);
        }

        return new Doubt(first.Line, first.Column, found.Trim(), question.Taken, question.Otherwise, question.Why,
            parts.Distinct().ToListOf()) { IsLeftOut = leftOut };
    }

    private IEnumerable<DoubtfulPart> Placed(ReadPart part, int step) =>
        part is ReadPart.StartTimes or ReadPart.RunTimes or ReadPart.WaterDays
        ? (letters[step].Length == 0 ? "A" : letters[step]).Select(l => new DoubtfulPart(part, l))
        : [new DoubtfulPart(part, null)];

    private Sentence NearestTo(int step) =>
        hear[steps[step].From] is { Kind: TokenKind.Word } word && NearestWord.To(word.Text, Lexicon.Announcing) is { } near
            && near != word.Text ? near : "";

    /// <summary>Steps that a later word took back: the last one before it of the kind that follows it.</summary>
    private HashSet<int> Withdrawn()
    {
        HashSet<int> withdrawn = [];
        for (int i = 0; i < steps.Count; i++)
        {
            if (steps[i].Says is [TakesBack])
            {
                int next = Enumerable.Range(i + 1, steps.Count - i - 1).FirstOrDefault(j => steps[j].Says.Any(s => s.Part is not null), -1);
                ReadPart? part = next < 0 ? null : steps[next].Says.First(s => s.Part is not null).Part;
                int before = part is null ? -1 : Enumerable.Range(0, i).Reverse().FirstOrDefault(
                    j => steps[j].Says is [{ } said] && said.Part == part && statements[j] >= statements[i] - 1, -1);
                if (before >= 0)
                {
                    withdrawn.Add(before);
                }
            }
        }

        return withdrawn;
    }

    /// <summary>Numbers the statements: lines, and what semicolons part.</summary>
    private static int[] Statements(Hearing hear, IReadOnlyList<Step> steps)
    {
        int[] numbers = new int[steps.Count];
        int number = 0;
        for (int i = 0; i < steps.Count; i++)
        {
            number += hear[steps[i].From] is { Kind: TokenKind.Break } or { Kind: TokenKind.Pause, Text: "." } ? 1 : 0;
            numbers[i] = number;
        }

        return numbers;
    }
}
