using Google.OrTools.Sat;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Programs;

/// <summary>
/// Which programs each controller of a supply holds, and which station belongs to which: every station takes one of its
/// choices, and the choice's spread of days and number of starts must be those of a program in use. (A facility-location
/// model: programs are known by what they hold rather than by letter, so that swapping letters is not another solution.)
/// </summary>
/// <remarks>Start times and dates come later; here time and flow are checked in the mean, so every bound holds for the whole problem.</remarks>
internal sealed class ProgramModel
{
    /// <summary>A controller may hold this many programs of the same spread and number of starts, on different dates or hours.</summary>
    private const int LargestCopies = 2;

    public ProgramModel(IReadOnlyList<ControllerCase> controllers)
    {
        Controllers = controllers;
        for (int c = 0; c < controllers.Count; c++)
        {
            AddController(c);
        }

        ProgramRules.Add(this);
        TimeAndFlowRules.Add(this);
    }

    public CpModel Model { get; } = new();

    public IReadOnlyList<ControllerCase> Controllers { get; }

    /// <summary>Facilities and whether each is in use.</summary>
    public Dictionary<Facility, BoolVar> InUse { get; } = [];

    /// <summary>Every station's choices in every facility.</summary>
    public List<Taking> Takings { get; } = [];

    /// <summary>Takings by station.</summary>
    public ILookup<(int Controller, int Zone), Taking> ByStation => Takings.ToLookup(t => (t.Facility.Controller, t.Zone));

    public LinearExpr Stress => Sum(Takings.Where(t => t.Choice.ExcessStress > 0), t => t.Choice.ExcessStress);

    public LinearExpr Water => Sum(Takings, t => t.Choice.LitresPerYear);

    public LinearExpr Settings => LinearExpr.WeightedSum(InUse.Values, InUse.Keys.Select(f => (long)f.Settings));

    public LinearExpr WaterOf(int controller) => Sum(Takings.Where(t => t.Facility.Controller == controller), t => t.Choice.LitresPerYear);

    /// <summary>Programs that may not be held together exactly so: one of their stations must come or go, or change.</summary>
    public void Forbid(IReadOnlyList<ProgramDraft> together)
    {
        bool alone = together.Select(p => p.Controller).Distinct().Count() == 1;
        foreach (int[] copies in CopyLabels(together))
        {
            List<ILiteral> differs = [];
            for (int i = 0; i < together.Count; i++)
            {
                Facility facility = new(together[i].Controller, together[i].Days, together[i].Cycles, copies[i]);
                HashSet<int> members = [.. together[i].Stations.Select(s => s.Zone)];
                foreach (Taking taking in Takings.Where(t => t.Facility == facility))
                {
                    if (members.Contains(taking.Zone))
                    {
                        int found = together[i].Stations.First(s => s.Zone == taking.Zone).Choice.RunSeconds;
                        if (taking.Choice.RunSeconds == found)
                        {
                            differs.Add(taking.Taken.Not());
                        }
                    }
                    else if (!alone)
                    {
                        // Beside other controllers a longer run is not always harder: its later stations move. Alone it is.
                        differs.Add(taking.Taken);
                    }
                }
            }

            Model.AddBoolOr(differs);
        }
    }

    /// <summary>The programs of a solution.</summary>
    public List<ProgramDraft> Read(CpSolver solver) =>
        [.. Takings.Where(t => solver.BooleanValue(t.Taken))
            .GroupBy(t => t.Facility)
            .Select(g => new ProgramDraft(g.Key.Controller, g.Key.Days, g.Key.Cycles, [.. g.OrderBy(t => t.Zone).Select(t => new StationDraft(t.Zone, t.Choice))]))
            .OrderBy(p => p.Controller)];

    internal static LinearExpr Sum(IEnumerable<Taking> takings, Func<Taking, long> weight)
    {
        Taking[] all = [.. takings];
        return LinearExpr.WeightedSum(all.Select(t => t.Taken), all.Select(weight));
    }

    private void AddController(int c)
    {
        ControllerCase of = Controllers[c];
        int copies = Math.Min(LargestCopies, of.Profile.Programs);
        HashSet<int> cyclesWorthHaving = [.. of.Zones.SelectMany(z => z.Choices.GroupBy(x => x.Days).Select(g => g.Min(x => x.Cycles)))];
        cyclesWorthHaving.UnionWith(of.Zones.SelectMany(z => z.Choices.Where(x => x.ExcessStress > 0).Select(x => x.Cycles)));
        for (int zone = 0; zone < of.Zones.Count; zone++)
        {
            foreach (Choice choice in of.Zones[zone].Choices.Where(x => cyclesWorthHaving.Contains(x.Cycles)))
            {
                for (int copy = 0; copy < copies; copy++)
                {
                    Facility facility = new(c, choice.Days, choice.Cycles, copy);
                    if (!InUse.ContainsKey(facility))
                    {
                        InUse[facility] = Model.NewBoolVar($"{of.Controller.Name}: {choice.Days.Name}, {choice.Cycles} starts, {copy}");
                    }

                    Takings.Add(new Taking(facility, zone, choice, Model.NewBoolVar($"{of.Controller.Name}/{of.Zones[zone].Zone.Station} in it")));
                }
            }
        }
    }

    private static IEnumerable<int[]> CopyLabels(IReadOnlyList<ProgramDraft> programs)
    {
        int[] labels = new int[programs.Count];
        int combinations = (int)Math.Pow(LargestCopies, programs.Count);
        for (int code = 0; code < combinations; code++)
        {
            for (int i = 0, rest = code; i < labels.Length; i++, rest /= LargestCopies)
            {
                labels[i] = rest % LargestCopies;
            }

            bool distinct = programs.Select((p, i) => (p.Controller, p.Days, p.Cycles, labels[i])).Distinct().Count() == programs.Count;
            if (distinct)
            {
                yield return [.. labels];
            }
        }
    }
}

/// <summary>A station's choice in a facility, and whether it is taken.</summary>
internal sealed record Taking(Facility Facility, int Zone, Choice Choice, BoolVar Taken);
