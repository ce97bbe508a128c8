using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;

namespace Valvewright.Cli.Commands;

/// <summary>Lists the profiles that a survey can name.</summary>
internal static class ProfilesCommand
{
    public static Job Make()
    {
        Job job = new("profiles", "Lists the controller profiles that a survey can name.", "valvewright profiles");
        return job.Does((_, sheet, _) =>
        {
            sheet.Answer(GenericProfiles.All);
            Table table = new("name", "water days", "overlapping start", "percent");
            foreach (Profile profile in GenericProfiles.All)
            {
                table.Row(profile.Name, Days(profile), Overlap(profile.Overlap), Percent(profile.Percent));
            }

            sheet.Show(table);
            sheet.Say();
            sheet.Say("A survey can also describe a profile of its own: docs/survey-file.md.");
            return ExitCode.Done;
        });
    }

    private static string Days(Profile profile) => string.Join(", ", profile.DayRules.Select(r => r switch
    {
        DayRuleKind.DaysOfWeek => "week",
        DayRuleKind.Odd => "odd",
        DayRuleKind.Even => "even",
        _ => $"every 1-{profile.LargestIntervalDays}",
    }));

    private static string Overlap(OverlapBehaviour overlap) => overlap switch
    {
        OverlapBehaviour.WaitsItsTurn => "waits",
        OverlapBehaviour.Lost => "is lost",
        _ => "runs beside",
    };

    private static string Percent(PercentRange range) =>
        range.Least == range.Largest ? "none" : $"{range.Least}-{range.Largest} by {range.Step}";
}
