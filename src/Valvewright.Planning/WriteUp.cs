using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning;

/// <summary>Puts solved programs down as the settings of a controller.</summary>
internal static class WriteUp
{
    /// <summary>The largest percent of the year: run times are planned for it.</summary>
    private const int Percent = 100;

    public static ControllerPlan ControllerPlan(ControllerCase of, int index, TimedPlan timed, List<ZoneChosen> zones)
    {
        List<Program> programs = [];
        int[] own = [.. Enumerable.Range(0, timed.Programs.Count)
            .Where(p => timed.Programs[p].Draft.Controller == index)
            .OrderBy(p => timed.Programs[p].Draft.Stations.Min(s => of.Zones[s.Zone].Zone.Station))];
        foreach (int p in own)
        {
            char letter = Profile.LetterOf(programs.Count);
            ProgramDraft draft = timed.Programs[p].Draft;
            programs.Add(new Program(
                letter,
                [.. timed.Times.Starts[p].Order().Select(s => LocalTime.FromSecondsSinceMidnight(s))],
                [.. draft.Stations.Select(s => new RunTime(of.Zones[s.Zone].Zone.Station, s.Choice.RunSeconds)).OrderBy(r => r.Station)],
                timed.Rules[p].Rule));
            zones.AddRange(draft.Stations.Select(s => Chosen(of, of.Zones[s.Zone], s.Choice, letter)));
        }

        return new ControllerPlan(of.Controller.Name, new Settings([.. programs], Percent), of.Season.Visits(Percent));
    }

    private static ZoneChosen Chosen(ControllerCase of, ZoneCase zone, Choice choice, char letter)
    {
        return new ZoneChosen(
            of.Controller.Name, zone.Zone.Station, zone.Zone.Name, letter, choice.RunSeconds, choice.Cycles, choice.UseMet,
                choice.WaterLitres,
            zone.Choices.Where(c => c.Shortfall == zone.Choices.Min(o => o.Shortfall)).Min(c => c.WaterLitres));
    }
}
