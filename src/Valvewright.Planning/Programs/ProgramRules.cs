using Google.OrTools.Sat;

namespace Valvewright.Planning.Programs;

/// <summary>What a controller can hold.</summary>
internal static class ProgramRules
{
    public static void Add(ProgramModel model)
    {
        EveryStationIsInOneProgram(model);
        AStationIsOnlyInAProgramInUse(model);
        NoMoreProgramsThanTheProfileHolds(model);
        SecondCopiesComeSecond(model);
    }

    private static void EveryStationIsInOneProgram(ProgramModel model)
    {
        foreach (IGrouping<(int, int), Taking> station in model.Takings.GroupBy(t => (t.Facility.Controller, t.Zone)))
        {
            model.Model.AddExactlyOne(station.Select(t => t.Taken));
        }
    }

    private static void AStationIsOnlyInAProgramInUse(ProgramModel model)
    {
        foreach (Taking taking in model.Takings)
        {
            model.Model.AddImplication(taking.Taken, model.InUse[taking.Facility]);
        }
    }

    private static void NoMoreProgramsThanTheProfileHolds(ProgramModel model)
    {
        for (int c = 0; c < model.Controllers.Count; c++)
        {
            model.Model.Add(LinearExpr.Sum(model.InUse.Where(f => f.Key.Controller == c).Select(f => (IntVar)f.Value)
                .Concat(model.Kinds.LettersOf(c))) <= model.ExtraPrograms + model.Controllers[c].Profile.Programs);
        }
    }

    private static void SecondCopiesComeSecond(ProgramModel model)
    {
        foreach ((Facility facility, BoolVar inUse) in model.InUse)
        {
            if (facility.Copy > 0)
            {
                model.Model.AddImplication(inUse, model.InUse[facility with { Copy = facility.Copy - 1 }]);
            }
        }
    }
}
