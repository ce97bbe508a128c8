using Google.OrTools.Sat;
using Valvewright.Engine.Controllers;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;

namespace Valvewright.Planning.Programs;

/// <summary>
/// Which programs each controller of a supply holds, and which station belongs to which: every station takes one of its
/// choices, and the choice's spread of days and number of starts must be those of a program in use. (A facility-location
/// model: programs are known by what they hold rather than by letter, so that swapping letters is not another solution.)
/// </summary>
/// <remarks>Start times and dates come later; here time and flow are checked in the mean, so every bound holds for the whole
/// problem.</remarks>
internal sealed class ProgramModel
{
    private const int MostExtraFlowTenths = 100_000;
    private const int MostExtraPrograms = 4;

    private readonly int copies;
    private readonly bool withLesser;
    private readonly bool isTidy;
    private readonly LinearExpr[] outsideEarlyHours;

    /// <param name="controllers">Controllers of one supply.</param>
    /// <param name="copies">How many programs of the same spread and number of starts a controller may hold, on different dates or
    /// hours.</param>
    /// <param name="withLesser">Whether zones may be given less than they need.</param>
    /// <param name="relaxed">A limit that may be exceeded, to see by how much it stands in the way; the others hold.</param>
    /// <param name="tidy"> The early hours of each controller, where programs are to be what a gardener would key: overhead water outside
    /// them has its price, programs may take turns on alternate dates, and of zones that have any only choices count whose cycles lie
    /// together.
    /// </param>
    public ProgramModel(IReadOnlyList<ControllerCase> controllers, int copies, bool withLesser, Limit relaxed = Limit.None,
        IReadOnlyList<EarlyHours>? tidy = null)
    {
        Controllers = controllers;
        Relaxed = relaxed;
        ExtraSeconds = Model.NewIntVar(0, relaxed == Limit.Hours ? PermittedSpan.Day : 0, "extra seconds a day");
        ExtraFlowTenths = Model.NewIntVar(0, relaxed == Limit.Flow ? MostExtraFlowTenths : 0, "extra flow");
        ExtraPrograms = Model.NewIntVar(0, relaxed == Limit.Programs ? MostExtraPrograms : 0, "extra programs");
        this.copies = copies;
        this.withLesser = withLesser;
        isTidy = tidy is not null;
        for (int c = 0; c < controllers.Count; c++)
        {
            AddController(c);
        }

        Kinds = new KindsApart(this);
        outsideEarlyHours = tidy is null ? [] : [.. controllers.Select((_, c) => EarlyHoursRules.PriceOf(this, c, tidy[c]))];
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

    /// <summary>Zones of different kinds in one program, and the letters that part them.</summary>
    public KindsApart Kinds { get; }

    public LinearExpr Short => Sum(Takings.Where(t => t.Choice.Shortfall > 0), t => t.Choice.Shortfall);

    public LinearExpr Cost => LinearExpr.Sum(Enumerable.Range(0, Controllers.Count).Select(CostOf));

    public LinearExpr Settings => LinearExpr.WeightedSum(InUse.Values, InUse.Keys.Select(f => (long)f.Settings)) + Kinds.Settings;

    /// <summary>What a controller's choices cost, and what it costs that kinds stay together and that overhead water lies outside the early
    /// hours.</summary>
    public LinearExpr CostOf(int controller) =>
        Sum(Takings.Where(t => t.Facility.Controller == controller), t => t.Choice.CostLitres) + Kinds.PriceOf(controller)
        + (outsideEarlyHours.Length > 0 ? outsideEarlyHours[controller] : LinearExpr.Constant(0));

    /// <summary>Programs that may not be held together exactly so: one of their stations must come or go, or change.</summary>
    public void Forbid(IReadOnlyList<ProgramDraft> together)
    {
        bool alone = together.Select(p => p.Controller).Distinct().Count() == 1;
        foreach (int[] copies in CopyLabels(together))
        {
            List<ILiteral> differs = [];
            foreach (IGrouping<Facility, ProgramDraft> held in together.Zip(copies)
                .GroupBy(p => new Facility(p.First.Controller, p.First.Days, p.First.Cycles, p.Second), p => p.First))
            {
                Dictionary<int, int> members = held.SelectMany(p => p.Stations).ToDictionary(s => s.Zone, s => s.Choice.RunSeconds);
                foreach (Taking taking in Takings.Where(t => t.Facility == held.Key))
                {
                    if (members.TryGetValue(taking.Zone, out int found))
                    {
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

    /// <summary>The programs of a solution, kinds parted where it has letters for it.</summary>
    public List<ProgramDraft> Read(CpSolver solver) =>
        [.. Takings.Where(t => solver.BooleanValue(t.Taken))
            .GroupBy(t => t.Facility)
            .SelectMany(g => Kinds.Parted(
                new ProgramDraft(g.Key.Controller, g.Key.Days, g.Key.Cycles,
                    [.. g.OrderBy(t => t.Zone).Select(t => new StationDraft(t.Zone, t.Choice))]), g.Key,
                        Controllers[g.Key.Controller], solver))
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
            Choice[] worthHaving = [.. all.Where(x => cyclesWorthHaving.Contains(x.Cycles))];
            Choice[] together = isTidy ? [.. worthHaving.Where(x => LieTogether(x, of.Zones[zone], of))] : worthHaving;
            foreach (Choice choice in together.Length > 0 ? together : worthHaving)
            {
                for (int copy = 0; copy < Math
                    .Min(isTidy && MayTakeTurns(choice.Days) ? Math.Max(2, copies) : copies, of.Profile.Programs); copy++)
                {
                    Facility facility = new(c, choice.Days, choice.Cycles, copy);
                    if (!InUse.ContainsKey(facility))
                    {
                        InUse[facility] = Model.NewBoolVar($"{of.Controller.Name}: {choice.Days.Name}, {choice.Cycles} starts, {copy}");
                    }

                    Takings.Add(new Taking(
                        facility, zone, choice, Model.NewBoolVar($"{of.Controller.Name}/{of.Zones[zone].Zone.Station} in it")));
                }
            }
        }
    }

    /// <summary>Whether two programs of these days may water on alternate dates: one on the odd, one on the even; every second or third
    /// day.</summary>
    private static bool MayTakeTurns(WaterDays days) =>
        days is { Family: DayRuleKind.Interval, Length: 2 or 3 } or { Family: DayRuleKind.Odd, Phases.Count: 2 };

    /// <summary>Whether one span of permitted hours takes all cycles with their soaks, so that none has to wait for the other end of the
    /// date.</summary>
    private static bool LieTogether(Choice choice, ZoneCase zone, ControllerCase of)
    {
        int toLast = (choice.Cycles - 1) * (choice.RunSeconds + zone.Need.SoakSeconds);
        return choice.Cycles == 1 || zone.IsSeedbed || (of.Supply.Permitted.DripIsExempt && zone.IsDrip ? toLast < PermittedSpan.Day
            : choice.Days.Phases
                .Any(p => p.Spans.Any(s => toLast + choice.RunSeconds <= s.Seconds && s.From + toLast < PermittedSpan.Day)));
    }

    /// <summary>Which copy of its kind each program may be in the model; parts of one program are one. Of very many programs only the
    /// plainest ways.</summary>
    private IEnumerable<int[]> CopyLabels(IReadOnlyList<ProgramDraft> programs)
    {
        const int MostLabelled = 12;
        int labelled = programs.Count > MostLabelled ? 0 : programs.Count;
        for (int code = 0; code < (int)Math.Pow(copies, labelled); code++)
        {
            int[] labels = new int[programs.Count];
            for (int i = 0, rest = code; i < labelled; i++, rest /= copies)
            {
                labels[i] = rest % copies;
            }

            yield return labels;
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
