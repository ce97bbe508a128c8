using Valvewright.App.Texts;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Texts;
using Valvewright.Records.Jobs;

namespace Valvewright.App.Pages.Plans;

/// <summary>What the server's long work says of itself, in the person's language.</summary>
public static class JobWords
{
    private const string Planning = "Planning ";
    private const string Trying = "Trying ";

    private static readonly Dictionary<string, string> Steps = new(StringComparer.Ordinal)
    {
        ["Reading the weather"] = "weather",
        ["Working out what each zone needs"] = "needs",
        ["Proving"] = "proof",
        ["Looking for the visits, and for what fewer or more are worth"] = "visits",
        ["Proving what was found"] = "found",
        ["Planning from nothing, to compare with"] = "replan",
    };

    /// <summary>What is being done. A step without words of its own is told as work in general.</summary>
    public static string Step(JobView job, PageWords words)
    {
        return job.State == JobState.Waiting ? words["job.waiting"]
            : Steps.TryGetValue(job.Step, out string? step) ? words[$"job.step.{step}"]
            : job.Step.StartsWith(Trying, StringComparison.Ordinal) ? words["job.step.changes"]
            : job.Step.StartsWith(Planning, StringComparison.Ordinal)
                ? words.Fill("job.step.planning", ("supply", job.Step[Planning.Length..].Split(": ")[0]))
            : words["job.step.other"];
    }

    /// <summary>What the person can do about it; null where the page knows of nothing.</summary>
    public static string? Todo(string kind, PageWords words)
    {
        string name = $"problem.{kind}.todo";
        return words.All.Names.Contains(name) ? words[name] : null;
    }

    /// <summary>A change that would make a plan possible.</summary>
    public static string Advice(AdviceView advice, SiteWords say, PageWords words)
    {
        (string, object) name = ("name", advice.Name);
        return advice switch
        {
            { Kind: "moreHours", Minutes: { } minutes } =>
                words.Fill("advice.moreHours", name, ("time", SiteWords.Duration(minutes * 60L))),
            { Kind: "moreFlow", FlowLpm: { } lpm } => words.Fill("advice.moreFlow", name, ("flow", say.Flow(lpm))),
            { Kind: "anotherDay", Day: { } day } => day == IsoDayOfWeek.None ? words.Fill("advice.anyDate", name)
                : words.Fill("advice.anotherDay", name, ("day", words[$"weekday.{(int)day}"])),
            { Kind: "largerController", Programs: > 0 } => words.Fill("advice.programs", name, ("n", advice.Programs.Value)),
            { Kind: "largerController", Starts: > 0 } => words.Fill("advice.starts", name, ("n", advice.Starts.Value)),
            { Kind: "largerController", RunTimeSeconds: > 0 } =>
                words.Fill("advice.runTimes", name, ("time", SiteWords.Duration(advice.RunTimeSeconds.Value))),
            { Kind: "largerController" } => words.Fill("advice.anyRule", name),
            { Kind: "movedStation", Station: { } station, To: { } to, ToStation: { } there } =>
                words.Fill("advice.moved", name, ("station", station), ("to", to), ("there", there)),
            { Kind: "clocksFollow" } => words.Fill("advice.clocks", name),
            { Kind: "lessAsked", Percent: { } percent } => words.Fill("advice.less", name, ("percent", percent)),
            _ => advice.What,
        };
    }
}
