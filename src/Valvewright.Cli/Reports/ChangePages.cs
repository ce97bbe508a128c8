using Valvewright.Cli.Output;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Planning.Changes;
using Valvewright.Work.Search;

namespace Valvewright.Cli.Reports;

/// <summary>Programs that a site has, and what changed settings save, as text.</summary>
internal static class ChangePages
{
    /// <summary>The programs found, their proof, what each change saves, and what to change.</summary>
    public static void Write(Sheet sheet, Site site, Plan found, ProgramsFromFound made, LocalDate from)
    {
        PlanPages.Programs(sheet, site, found);
        ProofPages.Found(sheet, site, made.FoundProof);
        if (made.Search is { } search)
        {
            Savings(sheet, site, search, from);
        }

        if (made.Chosen is not { } chosen)
        {
            sheet.Heading("Nothing to change");
            sheet.Say("No programs within these changes keep every rule. Allow more with --changes, or plan without --from-reading.");
            return;
        }

        if (chosen.Changes.Count == 0)
        {
            sheet.Heading("Nothing to change");
            sheet.Say(made.Search is null ? (Sentence)"The programs stay as they are."
                : (Sentence)"No change within these saves anything.");
            return;
        }

        sheet.Heading(chosen.Changes.Count == 1 ? (Sentence)"Change 1 setting" : (Sentence)$"Change {chosen.Changes.Count} settings");
        foreach (IGrouping<string, ControllerChange> controller in chosen.Changes.GroupBy(c => c.Controller))
        {
            sheet.Say($"{Printable.Of(controller.Key)}:");
            foreach (ControllerChange change in controller)
            {
                sheet.Say($"  - {Say(sheet, site, change.Change, from)}", 4);
            }
        }

        PlanPages.Programs(sheet, site, chosen.Plan);
        ProofPages.Write(sheet, site, made.Proof!, all: false);
        sheet.Say();
        sheet.Say("The percent stays the same all year unless visits set it: 'valvewright season' finds visits for these programs.");
    }

    /// <summary>Which settings differ between two plans.</summary>
    public static void Differences(Sheet sheet, Site site, Plan plan, Plan other, LocalDate from)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("From the other plan to this one");
        bool any = false;
        foreach (ControllerPlan own in plan.Controllers)
        {
            ControllerPlan? before = other.Controllers.FirstOrDefault(c => c.Controller == own.Controller);
            if (before is null || before == own)
            {
                continue;
            }

            any = true;
            sheet.Say($"{Printable.Of(own.Controller)}:");
            foreach (KeyChange change in SettingChanges.Between(before.Settings, own.Settings))
            {
                sheet.Say($"  - {Say(sheet, site, change, from)}", 4);
            }

            if (before.Visits != own.Visits)
            {
                sheet.Say($"  - Visits: {words.Season(own)}; in the other: {words.Season(before)}.", 4);
            }
        }

        if (!any)
        {
            sheet.Say("No setting differs.");
        }
    }

    private static void Savings(Sheet sheet, Site site, ProgramChanges search, LocalDate from)
    {
        SiteWords words = SiteWords.Of(site, sheet);
        sheet.Heading("What changed settings save");
        Table table = new("Changed settings", $">Water {words.VolumeUnit}", $">Unmet use {words.VolumeUnit}", ">Saved of all", "Rules");
        void Row(string name, ChangedPrograms some, bool isPart) => table.Row(
            name, words.Volume(some.WaterLitres / 1000), words.Volume(some.UnmetLitres / 1000), isPart
                ? words.Percent(Math.Floor((100 * search.PartOf(some)) + 1e-6), 0) : "", sheet.In(some.KeepsRules ? "kept" : "broken"));
        Row(sheet.In("0, as found"), search.Found, isPart: false);
        foreach (ChangedPrograms step in search.Steps)
        {
            Row($"{step.Changes.Count}", step, isPart: true);
        }

        if (search.Replanned is { } replanned)
        {
            Row(sheet.In($"{replanned.Changes.Count}, planned from nothing"), replanned, isPart: true);
        }

        sheet.Show(table);
        sheet.Say();
        sheet.Say($"Average planning year. Saved: water plus {SiteWords.Number(site.UnmetUseWeight, 1)} x unmet use, and use that "
            + $"must be met and is not. Numbers that save nothing more are left out.");
        foreach ((ChangedPrograms step, int i) in search.Steps.Select((s, i) => (s, i)))
        {
            ControllerChange[] before = i == 0 ? [] : [.. search.Steps[i - 1].Changes];
            string[] added = [.. step.Changes.Except(before).Select(c =>
                $"{Printable.Of(c.Controller)}: {Say(sheet, site, c.Change, from)}")];
            sheet.Say($"  {step.Changes.Count}: {string.Join(" ", added)}", 5);
        }
    }

    private static string Say(Sheet sheet, Site site, KeyChange change, LocalDate on) =>
        SettingChanges.Say(change, sheet.Language == Files.Texts.Language.Spanish ? CheckLanguage.Spanish : CheckLanguage.English,
            site.Clock, on);
}
