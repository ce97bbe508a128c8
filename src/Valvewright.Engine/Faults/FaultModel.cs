using Valvewright.Engine.Checks;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>All that a trace reasons with (docs/faults.md). Every figure is a rule of thumb until records replace it.</summary>
/// <param name="Name">What it is about.</param>
/// <param name="Source">Where its figures come from.</param>
/// <param name="PriorCases">How many recorded cases its weights count for.</param>
/// <param name="WrongAnswers">Share of answers that are wrong: misheard, misread, mistyped.</param>
/// <param name="TwoAtOnce">Share of cases with two faults.</param>
/// <param name="SomethingElse">Share of cases whose cause is not in the model.</param>
/// <param name="Sure">A cause this probable ends the trace.</param>
/// <param name="WrongMinutes">What a wrong diagnosis costs, in minutes: a step is worth its minutes as long as it saves more of
/// this.</param>
/// <param name="Places">Where steps are done.</param>
/// <param name="Needs">What steps need.</param>
/// <param name="Hazards">What can hurt, with its caution.</param>
/// <param name="Complaints">What callers say.</param>
/// <param name="Causes">What can be wrong.</param>
/// <param name="Steps">What can be asked, looked at or measured.</param>
public sealed record FaultModel(
    string Name, string Source, double PriorCases, double WrongAnswers, double TwoAtOnce, double SomethingElse, double Sure,
        double WrongMinutes,
    ListOf<TracePlace> Places, ListOf<NamedThing> Needs, ListOf<NamedThing> Hazards, ListOf<Complaint> Complaints, ListOf<Cause> Causes,
        ListOf<TraceStep> Steps)
{
    /// <summary>The cause of that name; null where the model has none.</summary>
    public Cause? CauseNamed(string name) => Causes.FirstOrDefault(c => c.Name == name);

    /// <summary>The step of that name; null where the model has none.</summary>
    public TraceStep? StepNamed(string name) => Steps.FirstOrDefault(s => s.Name == name);

    /// <summary>The complaint of that name; null where the model has none.</summary>
    public Complaint? ComplaintNamed(string name) => Complaints.FirstOrDefault(c => c.Name == name);

    /// <summary>The weights after some recorded cases: each recorded case counts once, the model's own weights as
    /// <see cref="PriorCases"/>.</summary>
    /// <param name="confirmed">The cause of each recorded case that was confirmed; causes that the model does not know are left
    /// out.</param>
    public FaultModel LearnedFrom(IEnumerable<string> confirmed)
    {
        ArgumentNullException.ThrowIfNull(confirmed);
        Dictionary<string, int> counts = confirmed.GroupBy(c => c).ToDictionary(g => g.Key, g => g.Count());
        double sum = Causes.Sum(c => c.Weight);
        return this with { Causes = Causes
            .Select(c => c with { Weight = (c.Weight / sum * PriorCases) + counts.GetValueOrDefault(c.Name) }).ToListOf() };
    }
}

/// <summary>A text in both languages.</summary>
/// <param name="English">In English.</param>
/// <param name="Spanish">In Spanish.</param>
public sealed record BothTongues(string English, string Spanish)
{
    /// <summary>Nothing, in both.</summary>
    public static BothTongues None { get; } = new("", "");

    /// <summary>The text in a language.</summary>
    public string In(CheckLanguage language) => language == CheckLanguage.Spanish ? Spanish : English;
}

/// <summary>Something with a name in the model and a text for people: a need, a hazard.</summary>
/// <param name="Name">Its word in the model.</param>
/// <param name="Text">What people read.</param>
public sealed record NamedThing(string Name, BothTongues Text);

/// <summary>Where a step is done.</summary>
/// <param name="Name">Its word in the model.</param>
/// <param name="Minutes">What getting there takes, once a trace.</param>
/// <param name="Text">What people read.</param>
public sealed record TracePlace(string Name, double Minutes, BothTongues Text);

/// <summary>What a caller complains of.</summary>
/// <param name="Name">Its word in the model.</param>
/// <param name="Text">What people read.</param>
/// <param name="Says">Words by which a sentence is recognized.</param>
public sealed record Complaint(string Name, BothTongues Text, ListOf<string> Says);

/// <summary>What can be wrong.</summary>
/// <param name="Name">Its word in the model.</param>
/// <param name="Text">What people read.</param>
/// <param name="Weight">How common it is compared with the others.</param>
/// <param name="Group">Two causes of one group are never supposed together.</param>
/// <param name="When">What a site must have for it; all of them.</param>
/// <param name="Complaints">Share of its cases in which a caller says so, 0 to 1.</param>
/// <param name="Shows">What it does to the answers of steps; steps left out do not depend on it.</param>
/// <param name="Repair">What to do.</param>
/// <param name="Parts">What to bring; empty where nothing is needed.</param>
/// <param name="Hazards">What can hurt while it is put right.</param>
/// <param name="Minutes">What putting it right takes.</param>
public sealed record Cause(
    string Name, BothTongues Text, double Weight, string Group, ListOf<string> When, ListOf<Odds> Complaints, ListOf<Shown> Shows,
    BothTongues Repair, BothTongues Parts, ListOf<string> Hazards, double Minutes);

/// <summary>A word of the model with its share.</summary>
/// <param name="Name">The word.</param>
/// <param name="Share">0 to 1.</param>
public sealed record Odds(string Name, double Share);

/// <summary>What a cause does to the answers of one step.</summary>
/// <param name="Step">The step.</param>
/// <param name="Answers">Answers with their shares; what is left to 1 is shared evenly by the other answers.</param>
public sealed record Shown(string Step, ListOf<Odds> Answers);

/// <summary>Something to ask, look at or measure.</summary>
/// <param name="Name">Its word in the model.</param>
/// <param name="Question">What is asked.</param>
/// <param name="Title">What it is called in a list.</param>
/// <param name="Place">Where it is done.</param>
/// <param name="Minutes">How long it takes there.</param>
/// <param name="OnPhone">Whether a caller can do it.</param>
/// <param name="Needs">What it needs.</param>
/// <param name="When">What a site must have for it.</param>
/// <param name="Hazards">What can hurt.</param>
/// <param name="Measured">What a number is expected to be; null where the answer is a word.</param>
/// <param name="Answers">From the ordinary to the most telling; where two causes are at work the more telling one is seen.</param>
public sealed record TraceStep(
    string Name, BothTongues Question, BothTongues Title, string Place, double Minutes, bool OnPhone, ListOf<string> Needs,
        ListOf<string> When,
    ListOf<string> Hazards, Expected? Measured, ListOf<StepAnswer> Answers)
{
    /// <summary>The answer of that name; null where there is none.</summary>
    public StepAnswer? AnswerNamed(string name) => Answers.FirstOrDefault(a => a.Name == name);
}

/// <summary>One answer of a step.</summary>
/// <param name="Name">Its word in the model.</param>
/// <param name="Text">What people read.</param>
/// <param name="Usual">Its share where nothing that the step depends on is wrong, 0 to 1.</param>
/// <param name="Findings">Findings of a check that mean this answer, by their names in JSON.</param>
/// <param name="Reads">What a meter reads then; null where the answer is a word.</param>
public sealed record StepAnswer(string Name, BothTongues Text, double Usual, ListOf<string> Findings, Readout? Reads);

/// <summary>What a meter reads in one state of the thing measured: about a multiple of what is expected, or anything between two
/// values.</summary>
/// <param name="Times">Multiple of the expected value; null where <paramref name="From"/> and <paramref name="To"/> hold.</param>
/// <param name="Spread">Standard deviation of the logarithm.</param>
/// <param name="From">Least value, in the step's unit.</param>
/// <param name="To">Largest value.</param>
public sealed record Readout(double? Times, double Spread, double From, double To);

/// <summary>Quantities that are measured in a trace; what they should be follows from the site (<see cref="TraceFacts"/>).</summary>
public enum Expected
{
    /// <summary>Battery under the load of a pulse, V.</summary>
    BatteryVolts,

    /// <summary>Wire and coil from the controller, ohm.</summary>
    LoopOhms,

    /// <summary>The coil alone, ohm.</summary>
    CoilOhms,

    /// <summary>Supply with everything shut, kPa.</summary>
    StaticPressure,

    /// <summary>At the last head while the station runs, kPa.</summary>
    RunningPressure,
}
