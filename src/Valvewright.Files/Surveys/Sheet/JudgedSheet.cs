using Valvewright.Engine.Values;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>A sheet as the reader understands it.</summary>
/// <param name="Text">The survey as YAML.</param>
/// <param name="Reading">What the reader made of it.</param>
/// <param name="Problems">What must be put right.</param>
/// <param name="Questions">What can be used but is questioned.</param>
public sealed record JudgedSheet(string Text, SurveyReading Reading, ListOf<PlacedProblem> Problems, ListOf<PlacedProblem> Questions);

/// <summary>A problem with the path of the value that it is about.</summary>
/// <param name="Path">The path; empty where the whole is meant.</param>
/// <param name="Problem">The problem.</param>
public sealed record PlacedProblem(string Path, Problem Problem);
