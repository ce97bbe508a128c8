using Valvewright.Engine.Controllers;

namespace Valvewright.Tests.Twin;

/// <summary>Surroundings given in steady seconds.</summary>
public sealed class TwinWorldOfState(Settings settings, ControllerState state, long begins) : ITwinWorld
{
    private static readonly DateTime Epoch = new(2000, 1, 1);

    private readonly List<long> changes =
    [
        .. new SortedSet<long>(
        [
            .. state.Standstills.SelectMany(s => new[] { s.From, s.To }),
            .. state.HandRuns.Select(r => r.At),
            .. state.ClockChanges.Select(c => c.At),
            .. state.SettingsChanges.Select(c => c.At),
        ]),
    ];

    public long Begins => begins;

    public DateTime Display(long second)
    {
        long shown = second;
        foreach (ClockChange change in state.ClockChanges)
        {
            if (change.At <= second)
            {
                shown = change.Shows + (second - change.At);
            }
        }

        return Epoch.AddSeconds(shown);
    }

    public ClockChangeCause? JumpedAt(long second)
    {
        foreach (ClockChange change in state.ClockChanges)
        {
            if (change.At == second)
            {
                return change.Cause;
            }
        }

        return null;
    }

    public bool Holds(LostReason cause, long second)
    {
        foreach (Standstill spell in state.Standstills)
        {
            if (spell.Cause == cause && spell.From <= second && second < spell.To)
            {
                return true;
            }
        }

        return false;
    }

    public long? HeldOpenFor(long second)
    {
        foreach (Standstill spell in state.Standstills)
        {
            if (spell.ValveStaysOpen && spell.From == second)
            {
                return spell.To - second;
            }
        }

        return null;
    }

    public Settings Keyed(long second)
    {
        Settings keyed = settings;
        foreach (SettingsChange change in state.SettingsChanges)
        {
            keyed = change.At <= second ? change.Settings : keyed;
        }

        return keyed;
    }

    public IEnumerable<HandRun> StartedByHand(long second)
    {
        foreach (HandRun run in state.HandRuns)
        {
            if (run.At == second)
            {
                yield return run;
            }
        }
    }

    public int? DaysLeftAtFirst(char program) => Told.DaysLeft(state.DaysLeft, program);

    public long NextChange(long second)
    {
        foreach (long change in changes)
        {
            if (change > second)
            {
                return change;
            }
        }

        return long.MaxValue;
    }
}
