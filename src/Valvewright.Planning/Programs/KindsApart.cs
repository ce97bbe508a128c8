using Google.OrTools.Sat;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Programs;

/// <summary>
/// Zones of different kinds in one program: a price on it, and letters that are free to part them. A program whose kinds are parted is set
/// as two or more programs of the same days and number of starts, which changes nothing for the plants.
/// </summary>
internal sealed class KindsApart
{
    /// <summary>Parting two kinds is worth this part of the controller's cost: they want other hours, and visits can turn one of them
    /// off.</summary>
    private const double WorthOfParting = 0.02;

    /// <summary>An established lawn watered with a seedbed gets water several times by day, when most of it is lost and turf diseases
    /// thrive.</summary>
    private const double WorthOfASeedbedAlone = 0.5;

    private readonly Dictionary<Facility, IntVar> furtherLetters = [];
    private readonly List<(int Controller, IntVar Count, long Litres)> prices = [];

    public KindsApart(ProgramModel model)
    {
        foreach (IGrouping<Facility, Taking> facility in model.Takings.GroupBy(t => t.Facility))
        {
            ControllerCase of = model.Controllers[facility.Key.Controller];
            IGrouping<ZoneKind, Taking>[] kinds = [.. facility.GroupBy(t => ZoneKinds.Of(of.Zones[t.Zone])).OrderBy(g => g.Key)];
            if (kinds.Length > 1 && of.Profile.Programs > 1)
            {
                Add(model, facility.Key, kinds);
            }
        }
    }

    /// <summary>Letters beyond a program's own that part its kinds.</summary>
    public IEnumerable<IntVar> LettersOf(int controller) => furtherLetters.Where(f => f.Key.Controller == controller).Select(f => f.Value);

    /// <summary>What is set for these letters.</summary>
    public LinearExpr Settings => LinearExpr.WeightedSum(furtherLetters.Values, furtherLetters.Keys.Select(f => (long)f.Settings));

    /// <summary>Everything that a solution sets here: the next level begins from it.</summary>
    public List<IntVar> Variables { get; } = [];

    /// <summary>What kinds that stay together cost.</summary>
    public LinearExpr PriceOf(int controller)
    {
        (int Controller, IntVar Count, long Litres)[] own = [.. prices.Where(p => p.Controller == controller)];
        return LinearExpr.WeightedSum(own.Select(p => p.Count), own.Select(p => p.Litres));
    }

    /// <summary>A program parted into as many as the solution has letters for it.</summary>
    public IEnumerable<ProgramDraft> Parted(ProgramDraft program, Facility facility, ControllerCase of, CpSolver solver)
    {
        int further = furtherLetters.TryGetValue(facility, out IntVar? letters) ? (int)solver.Value(letters) : 0;
        foreach (IGrouping<int, StationDraft> part in program.Stations
            .GroupBy(s => ZoneKinds.Of(of.Zones[s.Zone]))
            .OrderBy(k => k.Key)
            .SelectMany((kind, i) => kind.Select(s => (Station: s, Part: Math.Min(i, further))))
            .GroupBy(s => s.Part, s => s.Station))
        {
            yield return program with { Stations = [.. part.OrderBy(s => s.Zone)] };
        }
    }

    private void Add(ProgramModel model, Facility facility, IGrouping<ZoneKind, Taking>[] kinds)
    {
        IntVar letters = model.Model.NewIntVar(0, kinds.Length - 1, "further letters");
        furtherLetters.Add(facility, letters);
        Dictionary<ZoneKind, BoolVar> has = [];
        foreach (IGrouping<ZoneKind, Taking> kind in kinds)
        {
            has[kind.Key] = model.Model.NewBoolVar($"has {kind.Key}");
            foreach (Taking taking in kind)
            {
                model.Model.AddImplication(taking.Taken, has[kind.Key]);
            }
        }

        foreach (BoolVar one in has.Values)
        {
            model.Model.AddImplication(one, model.InUse[facility]);
        }

        model.Model.Add(letters <= LinearExpr.Sum(has.Values) - model.InUse[facility]);
        ControllerCase of = model.Controllers[facility.Controller];
        IntVar together = model.Model.NewIntVar(0, kinds.Length - 1, "kinds together");
        model.Model.Add(LinearExpr.Sum(has.Values) - model.InUse[facility] - letters <= together);
        Variables.AddRange([letters, together, .. has.Values]);
        prices.Add((facility.Controller, together, Part(WorthOfParting, of.Zones)));
        if (has.TryGetValue(ZoneKind.Seedbed, out BoolVar? seedbed) && has.TryGetValue(ZoneKind.Overhead, out BoolVar? overhead))
        {
            IntVar wetByDay = model.Model.NewIntVar(0, 1, "an established lawn with a seedbed");
            model.Model.Add(seedbed + overhead - 1 - letters <= wetByDay);
            prices.Add(
                (facility.Controller, wetByDay, Part(WorthOfASeedbedAlone, of.Zones.Where(z => ZoneKinds.Of(z) == ZoneKind.Overhead))));
        }
    }

    private static long Part(double share, IEnumerable<ZoneCase> zones) =>
        (long)Math.Round(share * zones.Where(z => z.Choices.Count > 0).Sum(z => z.Choices.Min(c => c.CostLitres)));
}
