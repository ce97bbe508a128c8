using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>Where a trace stands.</summary>
/// <param name="Causes">Causes that the complaint allows, the most probable first.</param>
/// <param name="SomethingElse">Probability that the cause is not in the model.</param>
/// <param name="Next">What to do next; null at the end.</param>
/// <param name="End">How it ended; null while there is something to do.</param>
/// <param name="Misfits">Answers that probably are wrong, because nothing explains them together with the others.</param>
/// <param name="OnSite">At the end of a telephone trace: what a visit would do next, best first.</param>
/// <param name="MinutesSpent">Minutes of the steps done, with the ways.</param>
public sealed record TraceView(
    ListOf<CauseShare> Causes, double SomethingElse, NextAsk? Next, TraceEnd? End, ListOf<Misfit> Misfits, ListOf<string> OnSite,
        double MinutesSpent);

/// <summary>A cause with its probability and the answers that by themselves speak for and against it.</summary>
/// <param name="Name">The cause.</param>
/// <param name="Share">Probability that it is present, alone or with another.</param>
/// <param name="For">Steps whose answers speak for it, the strongest first.</param>
/// <param name="Against">Steps whose answers speak against it, the strongest first.</param>
public sealed record CauseShare(string Name, double Share, ListOf<string> For, ListOf<string> Against);

/// <summary>The step to do next.</summary>
/// <param name="Step">The step.</param>
/// <param name="Minutes">What it takes, with the way there.</param>
/// <param name="Saves">Expected minutes that it saves, its own taken off.</param>
/// <param name="Leads">For each answer, in the step's order: how probable it is, and the cause that leads after it.</param>
public sealed record NextAsk(string Step, double Minutes, double Saves, ListOf<Lead> Leads);

/// <summary>Where an answer leads.</summary>
/// <param name="Answer">The answer's word.</param>
/// <param name="Share">How probable it is.</param>
/// <param name="Cause">The cause that leads after it; null for something else.</param>
public sealed record Lead(string Answer, double Share, string? Cause);

/// <summary>An answer that probably is wrong.</summary>
/// <param name="Step">The step.</param>
/// <param name="Share">Probability that the answer is wrong, all others given.</param>
public sealed record Misfit(string Step, double Share);
