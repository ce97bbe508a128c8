using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.ByHand;

/// <summary>A plan and what a person made of it, touch by touch.</summary>
/// <param name="planned">The plan.</param>
internal sealed class WhatIfTrial(Plan planned)
{
    private readonly Stack<Plan> before = [];

    /// <summary>The plan as it was.</summary>
    public Plan Planned { get; } = planned;

    /// <summary>The plan as it is now.</summary>
    public Plan Now { get; private set; } = planned;

    /// <summary>Whether a touch can be taken back.</summary>
    public bool CanUndo => before.Count > 0;

    /// <summary>Whether anything is other than planned.</summary>
    public bool IsChanged => Now != Planned;

    /// <summary>Takes a controller as changed.</summary>
    public void Take(ControllerPlan changed)
    {
        before.Push(Now);
        Now = Now with { Controllers = Now.Controllers.Select(c => c.Controller == changed.Controller ? changed : c).ToListOf() };
    }

    /// <summary>Takes the last touch back.</summary>
    public void Undo() => Now = before.Pop();

    /// <summary>What to set to get from the plan to this, controller by controller.</summary>
    public (string Controller, string What)[] Differences(Language language, ClockStyle clock, LocalDate on)
    {
        CheckLanguage spoken = language == Language.Spanish ? CheckLanguage.Spanish : CheckLanguage.English;
        return [.. Now.Controllers
            .SelectMany(c => Of(Planned.For(c.Controller), c, spoken, clock, on).Select(what => (c.Controller, what)))];
    }

    private static IEnumerable<string> Of(ControllerPlan planned, ControllerPlan now, CheckLanguage language, ClockStyle clock,
        LocalDate on)
    {
        foreach (KeyChange change in SettingChanges.Between(planned.Settings, now.Settings))
        {
            yield return SettingChanges.Say(change, language, clock, on);
        }

        foreach ((Visit old, Visit visit) in planned.Visits.Zip(now.Visits).Where(v => v.First != v.Second))
        {
            LocalDate date = visit.Date.InYear(on.Year);
            KeyChange change = visit.Percent == 0 ? new SwitchChange(false) : new PercentChange(visit.Percent);
            yield return $"{date.Day}/{date.Month}: {SettingChanges.Say(change, language, clock, on)}";
        }
    }
}
