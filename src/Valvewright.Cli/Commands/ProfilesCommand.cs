using Valvewright.Cli.Output;
using Valvewright.Engine.Controllers;

namespace Valvewright.Cli.Commands;

/// <summary>Lists the profiles that a survey can name.</summary>
internal static class ProfilesCommand
{
    public static Job Make()
    {
        Job job = new("profiles", "List the controller profiles that a survey can name.", "valvewright profiles");
        return job.Does((_, sheet, _) =>
        {
            sheet.Answer(GenericProfiles.All);
            Table table = new("name", "watering days", "overlapping start", "percent");
            foreach (Profile profile in GenericProfiles.All)
            {
                table.Row(profile.Name, sheet.In(Days(profile)), sheet.In(Overlap(profile.Overlap)), sheet.In(Percent(profile.Percent)));
            }

            sheet.Show(table);
            sheet.Say();
            sheet.Say("A survey can also describe a profile of its own: docs/survey-file.md.");
            return ExitCode.Done;
        });
    }

    private static Sentence Days(Profile profile) => Sentence.Together(profile.DayRules.Select<DayRuleKind, Sentence>(r => r switch
    {
        DayRuleKind.DaysOfWeek => "days of the week",
        DayRuleKind.Odd => "odd",
        DayRuleKind.Even => "even",
        _ => (Sentence)$"every 1-{profile.LargestIntervalDays} days",
    }), ", ");

    private static Sentence Overlap(OverlapBehaviour overlap) => overlap switch
    {
        OverlapBehaviour.WaitsItsTurn => "waits",
        OverlapBehaviour.Lost => "is lost",
        _ => "runs next to it",
    };

    private static Sentence Percent(PercentRange range) =>
        range.Least == range.Largest ? "none" : (Sentence)$"{range.Least}-{range.Largest} by {range.Step}";
}
