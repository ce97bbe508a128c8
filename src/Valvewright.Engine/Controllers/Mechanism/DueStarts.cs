namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>Starts in the order in which they fall due, found day by day as the display comes to show them.</summary>
internal struct DueStarts
{
    private readonly Profile profile;
    private readonly List<Stretch> stretches;
    private readonly long limit;
    private int stretch;
    private int day;
    private int next;
    private ulong watering;

    public DueStarts(Profile profile, List<Stretch> stretches, long limit)
    {
        this.limit = limit;
        this.profile = profile;
        this.stretches = stretches;
        stretch = -1;
        At = long.MinValue;
        NextStretch();
    }

    /// <summary>When the next start falls due, in steady seconds; <see cref="long.MaxValue"/> when there is none.</summary>
    public long At { get; private set; }

    public KeyedProgram Program { get; private set; } = null!;

    public int Start { get; private set; }

    /// <summary>Goes to the next start.</summary>
    public void Advance()
    {
        while (stretch < stretches.Count)
        {
            Stretch now = stretches[stretch];
            DailyStart[] starts = now.Settings.Starts;
            while (next < starts.Length)
            {
                ref readonly DailyStart start = ref starts[next++];
                if ((watering >> start.Program & 1) == 0)
                {
                    continue;
                }

                long at = day * ClockSeconds.PerDay + start.SecondOfDay - now.Ahead;
                if (at >= now.From && at < Math.Min(now.To, limit))
                {
                    At = at;
                    Program = now.Settings.Programs[start.Program];
                    Start = start.Start;
                    return;
                }
            }

            if ((day + 1) * ClockSeconds.PerDay - now.Ahead < Math.Min(now.To, limit))
            {
                SetDay(day + 1);
            }
            else
            {
                OpenStretch();
            }
        }

        At = long.MaxValue;
    }

    private void NextStretch()
    {
        OpenStretch();
        Advance();
    }

    private void OpenStretch()
    {
        stretch++;
        if (stretch < stretches.Count)
        {
            long shown = stretches[stretch].From + stretches[stretch].Ahead;
            SetDay((int)Math.DivRem(shown, ClockSeconds.PerDay, out long rest) - (rest < 0 ? 1 : 0));
        }
    }

    private void SetDay(int value)
    {
        day = value;
        next = 0;
        watering = 0;
        Stretch now = stretches[stretch];
        for (int program = 0; program < now.Settings.Programs.Length; program++)
        {
            if (now.Waters(program, day, profile))
            {
                watering |= 1UL << program;
            }
        }
    }
}
