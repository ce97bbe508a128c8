namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>One start that is to be followed, or a run by hand.</summary>
internal readonly record struct Turn(KeyedProgram Program, int Start, long Due, bool ByHand);

/// <summary>
/// One row of stations that open one after another. A controller has one lane; where programs run beside each other,
/// one for each program and one for stations opened by hand.
/// </summary>
internal struct Lane(int turns)
{
    /// <summary>Far enough below zero that a pause added to it changes nothing.</summary>
    public const long Never = long.MinValue / 2;

    private readonly Turn[] waiting = new Turn[turns];
    private int count;

    /// <summary>Whether <see cref="Current"/> is running or was cut short and not yet cleared.</summary>
    public bool Runs { get; private set; }

    /// <summary>What is running.</summary>
    public Turn Current { get; private set; }

    /// <summary>Which of its stations opens next.</summary>
    public int Position { get; private set; }

    /// <summary>When the last station closes that has been opened.</summary>
    public long LastClose { get; private set; } = Never;

    /// <summary>When the next station wants to open; <see cref="long.MaxValue"/> for none.</summary>
    public long Wants { get; private set; } = long.MaxValue;

    /// <summary>Whether a start due now would find it at work.</summary>
    public readonly bool BusyAt(long second) => Runs || count > 0 || LastClose > second;

    /// <summary>Whether anything waits.</summary>
    public readonly bool Holds() => count > 0;

    /// <summary>Whether a start of the program waits.</summary>
    public readonly bool Holds(int program)
    {
        for (int index = 0; index < count; index++)
        {
            if (!waiting[index].ByHand && waiting[index].Program.Index == program)
            {
                return true;
            }
        }

        return false;
    }

    public void Enqueue(in Turn turn, int pause)
    {
        waiting[count++] = turn;
        if (!Runs)
        {
            Rest(pause);
        }
    }

    /// <summary>Takes the first that waits, unless something runs.</summary>
    public void Begin()
    {
        if (!Runs)
        {
            Current = waiting[0];
            Array.Copy(waiting, 1, waiting, 0, --count);
            Runs = true;
            Position = 0;
        }
    }

    /// <summary>A station has been opened; the lane goes on after it has closed.</summary>
    public void Opened(long closes, bool cutShort, int pause)
    {
        LastClose = closes;
        Position++;
        if (cutShort)
        {
            Wants = long.MaxValue;
        }
        else if (Position < Current.Program.Stations.Length)
        {
            Wants = closes + pause;
        }
        else
        {
            Runs = false;
            Rest(pause);
        }
    }

    /// <summary>The next station will never open, because the lane is cleared before.</summary>
    public void Stall() => Wants = long.MaxValue;

    /// <summary>Drops what runs and what waits; runs by hand stay if told so.</summary>
    public void Clear(bool keepByHand, int pause, Span<Turn> dropped, out int droppedCount)
    {
        droppedCount = 0;
        int kept = 0;
        for (int index = 0; index < count; index++)
        {
            if (keepByHand && waiting[index].ByHand)
            {
                waiting[kept++] = waiting[index];
            }
            else
            {
                dropped[droppedCount++] = waiting[index];
            }
        }

        count = kept;
        if (Runs && !(keepByHand && Current.ByHand))
        {
            Runs = false;
        }

        if (!Runs)
        {
            Rest(pause);
        }
    }

    private void Rest(int pause) => Wants = count == 0 ? long.MaxValue : Math.Max(waiting[0].Due, LastClose + pause);
}
