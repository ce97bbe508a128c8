using System.Globalization;
using Valvewright.Cli.Output;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Files.Checks;

namespace Valvewright.Cli.Reports;

/// <summary>What explains what was seen, as text.</summary>
internal static class SeenPages
{
    public static void Write(Sheet sheet, CheckSaid said, SeenText seen, SymptomResult symptoms, CheckResult check)
    {
        CheckPages.Doubts(sheet, said, "doubtful.seen", seen.Doubts);
        sheet.Heading(said["seen"]);
        foreach (string line in seen.Observations.Select(said.Seen).Concat(seen.Complaints.Select(said.Complaint)).DefaultIfEmpty(
            said["seen.nothing"]))
        {
            sheet.Say(line, 3);
        }

        if (seen.Observations.Count == 0)
        {
            return;
        }

        sheet.Heading(said.Count("explanations", symptoms.Explanations.Count));
        int number = 0;
        foreach (Explanation explanation in symptoms.Explanations)
        {
            Write(sheet, said, explanation, ++number, check);
        }

        sheet.Say();
        sheet.Say(said.Fill("tried", ("n", symptoms.Tried.ToString("#,0", CultureInfo.InvariantCulture))));
    }

    private static void Write(Sheet sheet, CheckSaid said, Explanation explanation, int number, CheckResult check)
    {
        if (number > 1)
        {
            sheet.Say();
        }

        string share = said.Share(explanation.Share);
        if (explanation.Slips.Count == 0)
        {
            sheet.Say($"{number}. {said.WithoutSlip(check)} ({share})", 3);
            return;
        }

        for (int i = 0; i < explanation.Slips.Count; i++)
        {
            Finding slip = explanation.Slips[i];
            sheet.Say($"{(i == 0 ? $"{number}." : "   " + said["and"])} {slip.Explanation}{(i == 0 ? $" ({share})" : "")}", 3);
            foreach (string change in slip.MendInWords)
            {
                sheet.Say("   " + said.Fill("mend", ("text", change)), 3);
            }
        }
    }
}
