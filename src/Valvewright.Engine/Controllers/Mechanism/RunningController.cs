
namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>
/// A controller at work, from event to event: a standstill begins or ends, a person starts a run, a station opens, a
/// start falls due - in this order where they fall on one second.
/// </summary>
internal ref struct RunningController<TSink>
    where TSink : IRunSink, allows ref struct
{
    private readonly Profile profile;
    private readonly bool beside;
    private readonly int pause;
    private readonly long from;
    private readonly long to;
    private readonly Lane[] lanes;
    private readonly Edge[] edges;
    private readonly ReadyHandRun[] byHand;
    private readonly Turn[] dropped;
    private readonly int[] active = new int[LostReasons];
    private DueStarts due;
    private Pump pump;
    private int nextEdge;
    private int nextByHand;

    private const int LostReasons = (int)LostReason.RunByHand + 1;

    /// <param name="profile">How it behaves.</param>
    /// <param name="stretches">Clock and settings over the time of interest.</param>
    /// <param name="state">What befalls it.</param>
    /// <param name="from">Starts due before are followed, but only carried in.</param>
    /// <param name="to">Starts due from then on are not followed; a run by hand still ends what runs.</param>
    public RunningController(Profile profile, List<Stretch> stretches, ControllerState state, long from, long to)
    {
        this.profile = profile;
        this.from = from;
        this.to = to;
        beside = profile.Overlap == OverlapBehaviour.RunsBeside;
        pause = profile.PauseBetweenStationsSeconds;
        int programs = stretches.Count == 0 ? 0 : stretches.Max(s => s.Settings.Programs.Length);
        byHand = ReadyHandRun.Of(profile, stretches, state, handLane: beside ? programs : 0);
        edges = Edge.Of(state.Standstills);
        lanes = new Lane[beside ? programs + 1 : 1];
        dropped = new Turn[programs + 2];
        for (int lane = 0; lane < lanes.Length; lane++)
        {
            lanes[lane] = new Lane(programs + 2);
        }

        due = new DueStarts(profile, stretches, to);
        pump = new Pump(profile.Pump);
    }

    /// <summary>Runs until every start has been followed to its end.</summary>
    public void Run(ref TSink sink)
    {
        while (true)
        {
            int lane = FirstLane(out long wants);
            long edge = nextEdge < edges.Length ? edges[nextEdge].At : long.MaxValue;
            long hand = nextByHand < byHand.Length ? byHand[nextByHand].At : long.MaxValue;
            if (wants == long.MaxValue && due.At == long.MaxValue && NothingIsLeft(edge, hand))
            {
                break;
            }

            long then = Math.Min(wants, due.At);
            if (edge <= Math.Min(hand, then))
            {
                Pass(edges[nextEdge++], ref sink);
            }
            else if (hand <= then)
            {
                StartByHand(byHand[nextByHand++], ref sink);
            }
            else if (wants <= due.At)
            {
                Open(ref lanes[lane], wants, ref sink);
            }
            else
            {
                Follow(ref sink);
                due.Advance();
            }
        }

        Tell(pump.Spell, ref sink);
    }

    /// <summary>Once no station wants to open and no start falls due: whether what may still happen can change anything.</summary>
    private readonly bool NothingIsLeft(long edge, long hand)
    {
        bool waits = false;
        foreach (ref readonly Lane lane in lanes.AsSpan())
        {
            waits |= lane.Holds();
        }

        return waits ? edge == long.MaxValue && hand == long.MaxValue : hand >= to && edge >= pump.Off;
    }

    private readonly int FirstLane(out long wants)
    {
        int first = 0;
        wants = lanes[0].Wants;
        for (int lane = 1; lane < lanes.Length; lane++)
        {
            if (lanes[lane].Wants < wants)
            {
                first = lane;
                wants = lanes[lane].Wants;
            }
        }

        return first;
    }

    private void Follow(ref TSink sink)
    {
        KeyedProgram program = due.Program;
        ref Lane lane = ref lanes[beside ? program.Index : 0];
        if (Standing(byHand: false) is LostReason reason)
        {
            Lose(program.Letter, due.At, reason, ref sink);
        }
        else if (profile.Overlap == OverlapBehaviour.Lost && lane.BusyAt(due.At))
        {
            Lose(program.Letter, due.At, LostReason.Running, ref sink);
        }
        else if (lane.Holds(program.Index))
        {
            Lose(program.Letter, due.At, LostReason.AlreadyWaiting, ref sink);
        }
        else
        {
            lane.Enqueue(new Turn(program, due.Start, due.At, ByHand: false), pause);
        }
    }

    private void StartByHand(in ReadyHandRun run, ref TSink sink)
    {
        if (Standing(byHand: true) is LostReason reason)
        {
            Lose(run.Program.Letter, run.At, reason, ref sink);
            return;
        }

        ref Lane lane = ref lanes[run.Lane];
        Clear(ref lane, keepByHand: false, LostReason.RunByHand, ref sink);
        lane.Enqueue(new Turn(run.Program, -1, run.At, ByHand: true), pause);
    }

    private void Pass(in Edge edge, ref TSink sink)
    {
        active[(int)edge.Standstill.Cause] += edge.Begins ? 1 : -1;
        if (!edge.Begins)
        {
            return;
        }

        for (int lane = 0; lane < lanes.Length; lane++)
        {
            Clear(ref lanes[lane], !edge.Standstill.StopsRunsByHand, edge.Standstill.Cause, ref sink);
        }

        if (edge.Standstill.Cause == LostReason.NoPower)
        {
            pump.Cut(edge.At);
        }
    }

    private readonly void Clear(ref Lane lane, bool keepByHand, LostReason reason, ref TSink sink)
    {
        lane.Clear(keepByHand, pause, dropped, out int count);
        for (int index = 0; index < count; index++)
        {
            Lose(dropped[index].Program.Letter, dropped[index].Due, reason, ref sink);
        }
    }

    private void Open(ref Lane lane, long wants, ref TSink sink)
    {
        lane.Begin();
        Turn turn = lane.Current;
        if (turn.Due >= to)
        {
            lane.Stall();
            return;
        }

        long opens = pump.Ready(wants, out PumpRun? ended);
        Tell(ended, ref sink);
        long stop = StopOf(turn, out long heldOpenUntil);
        if (opens >= stop)
        {
            pump.Abandon(stop);
            lane.Stall();
            return;
        }

        long closes = opens + turn.Program.Seconds[lane.Position];
        bool cutShort = closes > stop;
        closes = cutShort ? heldOpenUntil : closes;
        StationRun run = new(turn.Program.Stations[lane.Position], turn.Program.Letter, turn.Start, opens, closes);
        pump.Carry(closes);
        lane.Opened(closes, cutShort, pause);
        if (turn.Due >= from)
        {
            sink.Ran(run);
        }
        else if (closes > from)
        {
            sink.CarriedIn(run);
        }
    }

    /// <summary>When the turn would be cut short, and when a station that is open then closes.</summary>
    private readonly long StopOf(in Turn turn, out long closes)
    {
        long stop = long.MaxValue;
        closes = long.MaxValue;
        for (int index = nextEdge; index < edges.Length; index++)
        {
            ref readonly Edge edge = ref edges[index];
            if (edge.Begins && (!turn.ByHand || edge.Standstill.StopsRunsByHand))
            {
                stop = edge.At;
                closes = edge.Standstill.ValveStaysOpen ? edge.Standstill.To : stop;
                break;
            }
        }

        int lane = beside ? turn.Program.Index : 0;
        for (int index = nextByHand; index < byHand.Length && byHand[index].At < stop; index++)
        {
            if (byHand[index].Lane == lane && !byHand[index].Refused)
            {
                stop = byHand[index].At;
                closes = stop;
                break;
            }
        }

        return stop;
    }

    /// <summary>Why nothing may start now; null where it may.</summary>
    private readonly LostReason? Standing(bool byHand) =>
        active[(int)LostReason.NoPower] > 0 ? LostReason.NoPower
        : active[(int)LostReason.Off] > 0 ? LostReason.Off
        : byHand ? null
        : active[(int)LostReason.RainHold] > 0 ? LostReason.RainHold
        : active[(int)LostReason.SensorWet] > 0 ? LostReason.SensorWet
        : null;

    private readonly void Lose(char program, long at, LostReason reason, ref TSink sink)
    {
        if (at >= from && at < to)
        {
            sink.Lost(new LostStart(program, at, reason));
        }
    }

    private readonly void Tell(PumpRun? spell, ref TSink sink)
    {
        if (spell is PumpRun run && run.Off > from)
        {
            sink.Pumped(run);
        }
    }
}
