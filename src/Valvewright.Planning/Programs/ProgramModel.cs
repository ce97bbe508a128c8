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
    private const int MostExtraFlowTenths = 100_000;
    private const int MostExtraPrograms = 4;

    private readonly int copies;
    private readonly bool withLesser;

    /// <param name="controllers">Controllers of one supply.</param>
    /// <param name="copies">How many programs of the same spread and number of starts a controller may hold, on different dates or hours.</param>
    /// <param name="withLesser">Whether zones may be given less than they need.</param>
    /// <param name="relaxed">A limit that may be exceeded, to see by how much it stands in the way; the others hold.</param>
    public ProgramModel(IReadOnlyList<ControllerCase> controllers, int copies, bool withLesser, Limit relaxed = Limit.None)
    {
        Controllers = controllers;
        Relaxed = relaxed;
        ExtraSeconds = Model.NewIntVar(0, relaxed == Limit.Hours ? PermittedSpan.Day : 0, "extra seconds a day");
        ExtraFlowTenths = Model.NewIntVar(0, relaxed == Limit.Flow ? MostExtraFlowTenths : 0, "extra flow");
        ExtraPrograms = Model.NewIntVar(0, relaxed == Limit.Programs ? MostExtraPrograms : 0, "extra programs");
        this.copies = copies;
        this.withLesser = withLesser;
        for (int c = 0; c < controllers.Count; c++)
        {
            AddController(c);
        }

        ProgramRules.Add(this);
        TimeAndFlowRules.Add(this);
    }

    public CpModel Model { get; } = new();

    public Limit Relaxed { get; }

    /// <summary>Permitted seconds a day beyond what there are; 0 unless relaxed.</summary>
    public IntVar ExtraSeconds { get; }

    /// <summary>Flow beyond what the supply gives; 0 unless relaxed.</summary>
    public IntVar ExtraFlowTenths { get; }

    /// <summary>Programs beyond what each controller holds; 0 unless relaxed.</summary>
    public IntVar ExtraPrograms { get; }

    public IReadOnlyList<ControllerCase> Controllers { get; }

    /// <summary>Facilities and whether each is in use.</summary>
    public Dictionary<Facility, BoolVar> InUse { get; } = [];

    /// <summary>Every station's choices in every facility.</summary>
    public List<Taking> Takings { get; } = [];

    public LinearExpr Short => Sum(Takings.Where(t => t.Choice.Shortfall > 0), t => t.Choice.Shortfall);

    public LinearExpr Cost => Sum(Takings, t => t.Choice.CostLitres);

    public LinearExpr Settings => LinearExpr.WeightedSum(InUse.Values, InUse.Keys.Select(f => (long)f.Settings));

    public LinearExpr CostOf(int controller) => Sum(Takings.Where(t => t.Facility.Controller == controller), t => t.Choice.CostLitres);

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
                        if (taking.Choice.RunSeconds == found || alone && taking.Choice.RunSeconds > found)
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
        HashSet<int> cyclesWorthHaving = [.. of.Zones.SelectMany(z => z.Choices.GroupBy(x => x.Days).Select(g => g.Min(x => x.Cycles)))];
        cyclesWorthHaving.UnionWith(of.Zones.SelectMany(z => z.Choices.Where(x => x.Shortfall > 0).Select(x => x.Cycles)));
        if (withLesser)
        {
            cyclesWorthHaving.UnionWith(of.Zones.SelectMany(z => z.Lesser.Select(x => x.Cycles)));
        }

        for (int zone = 0; zone < of.Zones.Count; zone++)
        {
            IEnumerable<Choice> all = withLesser ? of.Zones[zone].Choices.Concat(of.Zones[zone].Lesser) : of.Zones[zone].Choices;
            foreach (Choice choice in all.Where(x => cyclesWorthHaving.Contains(x.Cycles)))
            {
                for (int copy = 0; copy < Math.Min(copies, of.Profile.Programs); copy++)
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

    private IEnumerable<int[]> CopyLabels(IReadOnlyList<ProgramDraft> programs)
    {
        int[] labels = new int[programs.Count];
        int combinations = (int)Math.Pow(copies, programs.Count);
        for (int code = 0; code < combinations; code++)
        {
            for (int i = 0, rest = code; i < labels.Length; i++, rest /= copies)
            {
                labels[i] = rest % copies;
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

/// <summary>A limit that may be relaxed to see how far it stands in the way.</summary>
internal enum Limit
{
    None,
    Hours,
    Flow,
    Programs,
}
