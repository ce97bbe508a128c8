using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Changes;

/// <summary>A plan made from nothing, with its programs under the letters that leave most of what is set.</summary>
internal static class GoalLetters
{
    /// <summary>The plan with the visits of what was found; controllers with a seedbed as they were found.</summary>
    public static Plan Of(Site site, Plan found, Plan replanned) => new(found.Site, site.Controllers.Select((c, i) =>
    {
        ControllerPlan own = found.Controllers[i];
        return SeedbedVisits.HasSeedbed(c) ? own : own with { Settings = Nearest(c.Profile, own.Settings, replanned.For(c.Name).Settings) };
    }).ToListOf());

    /// <summary>Programs take letters one after another, each the one that leaves fewest settings to change.</summary>
    private static Settings Nearest(Profile profile, Settings found, Settings wanted)
    {
        AsFound held = new(found);
        List<char> free = [.. Enumerable.Range(0, profile.Programs).Select(Profile.LetterOf)];
        List<Program> named = [];
        foreach (Program program in wanted.Programs.OrderByDescending(p => p.RunTimes.Count).ThenBy(p => p.Letter))
        {
            char letter = free.MinBy(l =>
                SettingChanges.Count(new Settings([held.ProgramOf(l)]),
                new Settings([program with { Letter = l }])) - Content(held.ProgramOf(l)));
            free.Remove(letter);
            named.Add(program with { Letter = letter });
        }

        return wanted with { Programs = named.OrderBy(p => p.Letter).ToListOf() };
    }

    /// <summary>Settings that would have to be cleared if a program were not used.</summary>
    private static int Content(Program program) => program.StartTimes.Count + program.RunTimes.Count + (program.Days is null ? 0 : 1);
}
