using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Twin;

/// <summary>
/// A controller imitated second by second: counters that run down, valves that are open or shut, a display that is
/// looked at. It shares no code with the emulator beyond the domain's records, and follows docs/emulator.md.
/// </summary>
/// <param name="profile">What the controller can hold and how it behaves.</param>
/// <param name="world">What surrounds it.</param>
/// <param name="everySecond">
/// Whether to look at every second; else seconds are passed over on which no counter runs out, no minute begins on the
/// display and nothing around changes.
/// </param>
public sealed class SlowTwin(Profile profile, ITwinWorld world, bool everySecond = false)
{
    private static readonly LostReason[] Causes = [LostReason.NoPower, LostReason.Off, LostReason.RainHold, LostReason.SensorWet];

    private readonly List<TwinLane> lanes = [];
    private readonly List<StationRun> runs = [];
    private readonly List<StationRun> carriedIn = [];
    private readonly List<LostStart> lost = [];
    private readonly List<PumpRun> pumped = [];
    private readonly Dictionary<char, int> daysLeft = [];
    private readonly Dictionary<char, DayRule?> counted = [];
    private readonly bool[] held = new bool[16];
    private bool pumpOn;
    private long pumpSince;
    private long lastClose = long.MinValue / 4;
    private DateTime shownBefore;
    private long from;
    private long to;

    /// <summary>What it does for starts from one second up to another.</summary>
    public Timeline Run(long fromSecond, long toSecond)
    {
        from = fromSecond;
        to = toSecond;
        long second = world.Begins;
        while (second < to || lanes.Exists(l => l.IsAtWork) || pumpOn)
        {
            Tick(second);
            second = everySecond ? second + 1 : Next(second);
        }

        runs.Sort(Compare);
        carriedIn.Sort(Compare);
        lost.Sort((a, b) => a.DueAt != b.DueAt ? a.DueAt.CompareTo(b.DueAt) : a.Program.CompareTo(b.Program));
        return new Timeline(runs.ToListOf(), lost.ToListOf()) { CarriedIn = carriedIn.ToListOf(), PumpRuns = pumped.ToListOf() };
    }

    private static int Compare(StationRun a, StationRun b)
    {
        int byTime = a.Opens.CompareTo(b.Opens);
        int byProgram = a.Program.CompareTo(b.Program);
        return byTime != 0 ? byTime : byProgram != 0 ? byProgram : a.Station.CompareTo(b.Station);
    }

    private void Tick(long now)
    {
        foreach (TwinLane lane in lanes)
        {
            if (lane.OpenStation > 0 && lane.ClosesAt == now)
            {
                Shut(lane, now);
            }
        }

        CountDays(now);
        Interrupt(now);
        foreach (HandRun run in world.StartedByHand(now))
        {
            ByHand(run, now);
        }

        MoveLanes(now);
        DateTime display = world.Display(now);
        if (display.Second == 0 && now < to)
        {
            FallDue(display, now);
        }

        bool wanted = lanes.Exists(l => l.OpenStation > 0 || (l.Job is not null && l.WaitsForPump));
        if (pumpOn && !wanted && now >= lastClose + profile.Pump!.LagSeconds)
        {
            PumpOff(now);
        }

        shownBefore = display;
    }

    private void FallDue(DateTime display, long now)
    {
        Settings settings = world.Keyed(now);
        for (int index = 0; index < settings.Programs.Count; index++)
        {
            Program program = settings.Programs[index];
            if (!Shows(program, display) || !IsWaterDay(program, display))
            {
                continue;
            }

            List<LocalTime> times = [.. program.StartTimes.Distinct()];
            times.Sort();
            int start = times.FindIndex(t => t.Hour == display.Hour && t.Minute == display.Minute);
            TwinJob job = Ready(program, settings.PercentAdjust, start, now, byHand: false);
            if (job.Stations.Count == 0)
            {
                continue;
            }

            Take(job, index, now);
            MoveLanes(now);
        }
    }

    private static bool Shows(Program program, DateTime display)
    {
        foreach (LocalTime time in program.StartTimes)
        {
            if (time.Hour == display.Hour && time.Minute == display.Minute)
            {
                return true;
            }
        }

        return false;
    }

    private void Take(TwinJob job, int index, long now)
    {
        TwinLane lane = LaneFor(profile.Overlap == OverlapBehaviour.RunsBeside ? index : 0);
        if (WhyNot(now, byHand: false) is LostReason why)
        {
            Lose(job.Letter, now, why);
        }
        else if (profile.Overlap == OverlapBehaviour.Lost && lane.IsAtWork)
        {
            Lose(job.Letter, now, LostReason.Running);
        }
        else if (lane.Waiting.Exists(j => !j.ByHand && j.Letter == job.Letter))
        {
            Lose(job.Letter, now, LostReason.AlreadyWaiting);
        }
        else
        {
            lane.Waiting.Add(job);
        }
    }

    private void ByHand(HandRun run, long now)
    {
        Settings settings = world.Keyed(now);
        bool beside = profile.Overlap == OverlapBehaviour.RunsBeside;
        int laneNumber = beside ? 99 : 0;
        TwinJob job = new() { Letter = run.Program, Start = -1, Due = now, ByHand = true };
        if (run.Station > 0)
        {
            job.Stations.Add((run.Station, run.Seconds));
        }
        else
        {
            int index = settings.Programs.ToList().FindIndex(p => p.Letter == run.Program);
            if (index < 0)
            {
                return;
            }

            job = Ready(settings.Programs[index], settings.PercentAdjust, -1, now, byHand: true);
            laneNumber = beside ? index : 0;
        }

        if (job.Stations.Count == 0)
        {
            return;
        }

        if (WhyNot(now, byHand: true) is LostReason why)
        {
            Lose(job.Letter, now, why);
            return;
        }

        TwinLane lane = LaneFor(laneNumber);
        Drop(lane, now, LostReason.RunByHand, everything: true);
        if (now < to)
        {
            lane.Waiting.Add(job);
        }
    }

    private TwinJob Ready(Program program, int percent, int start, long now, bool byHand)
    {
        TwinJob job = new() { Letter = program.Letter, Start = start, Due = now, ByHand = byHand };
        foreach (RunTime time in program.RunTimes.OrderBy(r => r.Station))
        {
            decimal exact = time.Seconds * percent / 100m;
            decimal seconds = percent == 100 ? time.Seconds : profile.Rounding switch
            {
                PercentRounding.NearestSecond => Math.Round(exact, MidpointRounding.AwayFromZero),
                PercentRounding.NearestMinute => Math.Round(exact / 60m, MidpointRounding.AwayFromZero) * 60m,
                PercentRounding.DownToMinute => Math.Floor(exact / 60m) * 60m,
                _ => Math.Ceiling(exact / 60m) * 60m,
            };
            if (seconds > 0)
            {
                job.Stations.Add((time.Station, (int)seconds));
            }
        }

        return job;
    }

    private LostReason? WhyNot(long now, bool byHand)
    {
        foreach (LostReason cause in Causes)
        {
            if (byHand && cause is (LostReason.RainHold or LostReason.SensorWet))
            {
                continue;
            }

            if (world.Holds(cause, now))
            {
                return cause;
            }
        }

        return null;
    }

    private void Interrupt(long now)
    {
        foreach (LostReason cause in Causes)
        {
            bool holds = world.Holds(cause, now);
            if (holds && !held[(int)cause])
            {
                bool everything = cause is LostReason.NoPower or LostReason.Off;
                foreach (TwinLane lane in lanes)
                {
                    Drop(lane, now, cause, everything);
                }

                if (cause == LostReason.NoPower && pumpOn)
                {
                    PumpOff(now);
                }
            }

            held[(int)cause] = holds;
        }
    }

    private void Drop(TwinLane lane, long now, LostReason cause, bool everything)
    {
        foreach (TwinJob job in lane.Waiting)
        {
            if (everything || !job.ByHand)
            {
                Lose(job.Letter, job.Due, cause);
            }
        }

        lane.Waiting.RemoveAll(j => everything || !j.ByHand);
        TwinJob? running = lane.Job ?? lane.OpenFor;
        if (running is null || (running.ByHand && !everything))
        {
            return;
        }

        lane.Job = null;
        lane.WaitsForPump = false;
        if (lane.OpenStation > 0)
        {
            if (cause == LostReason.NoPower && world.HeldOpenFor(now) is long seconds)
            {
                lane.ClosesAt = now + seconds;
                lane.HeldOpen = true;
            }
            else if (!lane.HeldOpen)
            {
                Shut(lane, now);
            }
        }
    }

    private void MoveLanes(long now)
    {
        foreach (TwinLane lane in lanes)
        {
            if (lane.OpenStation > 0)
            {
                continue;
            }

            if (lane.Job is null && lane.Waiting.Count > 0 && now >= lane.PauseUntil)
            {
                lane.Job = lane.Waiting[0];
                lane.Waiting.RemoveAt(0);
                lane.Position = 0;
            }

            if (lane.Job is not null && now >= lane.PauseUntil)
            {
                OpenIfPumpAllows(lane, now);
            }
        }
    }

    private void OpenIfPumpAllows(TwinLane lane, long now)
    {
        if (profile.Pump is not null && !pumpOn)
        {
            pumpOn = true;
            pumpSince = now;
        }

        if (profile.Pump is not null && now < pumpSince + profile.Pump.LeadSeconds)
        {
            lane.WaitsForPump = true;
            return;
        }

        TwinJob job = lane.Job!;
        lane.WaitsForPump = false;
        lane.OpenFor = job;
        lane.OpenStation = job.Stations[lane.Position].Station;
        lane.OpenedAt = now;
        lane.ClosesAt = now + job.Stations[lane.Position].Seconds;
        lane.Position++;
        lane.HeldOpen = false;
        if (lane.Position == job.Stations.Count)
        {
            lane.Job = null;
        }
    }

    private void Shut(TwinLane lane, long now)
    {
        TwinJob job = lane.OpenFor!;
        StationRun run = new(lane.OpenStation, job.Letter, job.Start, lane.OpenedAt, now);
        if (job.Due >= from && job.Due < to)
        {
            runs.Add(run);
        }
        else if (job.Due < from && now > from)
        {
            carriedIn.Add(run);
        }

        lane.OpenStation = 0;
        lane.OpenFor = null;
        lane.HeldOpen = false;
        lane.PauseUntil = now + profile.PauseBetweenStationsSeconds;
        lastClose = Math.Max(lastClose, now);
    }

    private void PumpOff(long now)
    {
        pumpOn = false;
        if (now > from)
        {
            pumped.Add(new PumpRun(pumpSince, now));
        }
    }

    private void Lose(char letter, long due, LostReason why)
    {
        if (due >= from && due < to)
        {
            lost.Add(new LostStart(letter, due, why));
        }
    }

    private bool IsWaterDay(Program program, DateTime display) => program.Days switch
    {
        DaysOfWeek week => week.Days.Any(d => (int)d % 7 == (int)display.DayOfWeek),
        OddDays => display.Day is 1 or 3 or 5 or 7 or 9 or 11 or 13 or 15 or 17 or 19 or 21 or 23 or 25 or 27 or 29 or 31
            && (display.Day != 31 || !profile.OddSkips31)
            && (display.Day != 29 || display.Month != 2 || !profile.OddSkips29February),
        EvenDays => display.Day / 2 * 2 == display.Day,
        EveryNDays when profile.IntervalCountsDaysLeft => daysLeft[program.Letter] == 0,
        EveryNDays every => (display.Date - every.Anchor.ToDateTimeUnspecified()).Days % every.Days == 0,
        _ => false,
    };

    private void CountDays(long now)
    {
        if (!profile.IntervalCountsDaysLeft)
        {
            return;
        }

        DateTime display = world.Display(now);
        Settings settings = world.Keyed(now);
        foreach (char gone in counted.Keys.Except(settings.Programs.Select(p => p.Letter)).ToList())
        {
            counted.Remove(gone);
        }

        ClockChangeCause? jumped = now == world.Begins ? null : world.JumpedAt(now);
        foreach (Program program in settings.Programs)
        {
            if (program.Days is not EveryNDays every)
            {
                counted[program.Letter] = program.Days;
                continue;
            }

            // What the counter did until now, for the rule that it was counting for.
            if (counted.TryGetValue(program.Letter, out DayRule? rule) && rule == every)
            {
                if (jumped == ClockChangeCause.PowerBack)
                {
                    daysLeft[program.Letter] = 0;
                }
                else if (jumped != ClockChangeCause.ByHand && display.Date > shownBefore.Date)
                {
                    daysLeft[program.Letter] = (daysLeft[program.Letter] == 0 ? every.Days : daysLeft[program.Letter]) - 1;
                }
            }
            else
            {
                int past = (display.Date - every.Anchor.ToDateTimeUnspecified()).Days % every.Days;
                int left = past == 0 ? 0 : past < 0 ? -past : every.Days - past;
                daysLeft[program.Letter] = now == world.Begins ? world.DaysLeftAtFirst(program.Letter) ?? left : left;
                counted[program.Letter] = every;
            }
        }
    }

    private TwinLane LaneFor(int number)
    {
        TwinLane? lane = lanes.Find(l => l.Number == number);
        if (lane is null)
        {
            lane = new TwinLane { Number = number };
            lanes.Add(lane);
            lanes.Sort((a, b) => a.Number.CompareTo(b.Number));
        }

        return lane;
    }

    private long Next(long now)
    {
        long next = Math.Min(world.NextChange(now), now + 60 - world.Display(now).Second);
        foreach (TwinLane lane in lanes)
        {
            Sooner(ref next, now, lane.ClosesAt);
            Sooner(ref next, now, lane.PauseUntil);
        }

        if (profile.Pump is not null)
        {
            Sooner(ref next, now, pumpSince + profile.Pump.LeadSeconds);
            Sooner(ref next, now, lastClose + profile.Pump.LagSeconds);
        }

        return next;
    }

    private static void Sooner(ref long next, long now, long at) => next = at > now && at < next ? at : next;
}
