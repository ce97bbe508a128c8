using Valvewright.Planning;
using Valvewright.Records.Jobs;

namespace Valvewright.Server.Jobs;

/// <summary>The planner's advice as the API tells it.</summary>
internal static class AdviceTold
{
    public static AdviceView Of(SiteChange change) => change switch
    {
        MoreHours more => new("moreHours", more.What, more.Supply) { Minutes = more.Minutes },
        MoreFlow more => new("moreFlow", more.What, more.Supply) { FlowLpm = more.Lpm },
        AnotherDay another => new("anotherDay", another.What, another.Supply) { Day = another.Day },
        LargerController larger => new("largerController", larger.What, larger.Controller)
            { Programs = larger.Programs, Starts = larger.Starts, RunTimeSeconds = larger.RunTimeSeconds },
        MovedStation moved =>
            new("movedStation", moved.What, moved.From) { Station = moved.Station, To = moved.To, ToStation = moved.ToStation },
        ClocksFollow clocks => new("clocksFollow", clocks.What, string.Join(", ", clocks.Names)),
        LessAsked less => new("lessAsked", less.What, less.Supply) { Percent = less.Percent },
        _ => throw new NotSupportedException($"Advice of kind {change.GetType().Name}."),
    };
}
