namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>A span of steady seconds over which neither the display jumps nor the settings change.</summary>
/// <param name="From">First steady second.</param>
/// <param name="To">First steady second after it.</param>
/// <param name="Ahead">What the display shows, less the steady second.</param>
/// <param name="Settings">What is set.</param>
/// <param name="ZeroDays">
/// Where intervals are counters of days left: by program, a shown day on which the counter stands at 0, none before it;
/// else null.
/// </param>
internal sealed record Stretch(long From, long To, long Ahead, KeyedSettings Settings, int[]? ZeroDays)
{
    /// <summary>The stretches from one second to another.</summary>
    public static List<Stretch> Over(Profile profile, Settings settings, ControllerState state, long from, long to)
    {
        if (state.ClockChanges.Count == 0 && state.SettingsChanges.Count == 0 && !profile.IntervalCountsDaysLeft)
        {
            return [new Stretch(from, to, 0, KeyedSettings.Of(settings, profile.Rounding), null)];
        }

        return new Cutter(profile, state).Cut(settings, from, to);
    }

    /// <summary>Whether a program waters on a day that the display shows.</summary>
    public bool Waters(int program, int day, Profile profile) =>
        ZeroDays is not null && Settings.Programs[program].Interval > 0
            ? day >= ZeroDays[program] && (day - ZeroDays[program]) % Settings.Programs[program].Interval == 0
            : Settings.Programs[program].WatersOn(day, profile);

    /// <summary>Cuts time at every change, carrying the days-left counters along.</summary>
    private sealed class Cutter(Profile profile, ControllerState state)
    {
        private readonly List<Stretch> stretches = [];
        private long ahead;
        private KeyedSettings keyed = null!;
        private int[] waterDays = [];

        public List<Stretch> Cut(Settings settings, long from, long to)
        {
            long begun = from;
            int clock = 0, change = 0;
            for (; clock < state.ClockChanges.Count && state.ClockChanges[clock].At <= from; clock++)
            {
                ahead = state.ClockChanges[clock].Shows - state.ClockChanges[clock].At;
            }

            for (; change < state.SettingsChanges.Count && state.SettingsChanges[change].At <= from; change++)
            {
                settings = state.SettingsChanges[change].Settings;
            }

            Key(settings, DayOf(from + ahead), state.DaysLeft.AsSpan());
            while (begun < to)
            {
                long nextClock = clock < state.ClockChanges.Count ? state.ClockChanges[clock].At : long.MaxValue;
                long nextChange = change < state.SettingsChanges.Count ? state.SettingsChanges[change].At : long.MaxValue;
                long end = Math.Min(to, Math.Max(begun, Math.Min(nextClock, nextChange)));
                if (end > begun)
                {
                    stretches.Add(new Stretch(begun, end, ahead, keyed, profile.IntervalCountsDaysLeft ? [.. waterDays] : null));
                    begun = end;
                }
                else if (nextClock <= begun)
                {
                    Jump(state.ClockChanges[clock++], begun);
                }
                else
                {
                    Key(state.SettingsChanges[change++].Settings, DayOf(begun + ahead), []);
                }
            }

            return stretches;
        }

        private static int DayOf(long shown) => (int)Math.DivRem(shown, ClockSeconds.PerDay, out long rest) - (rest < 0 ? 1 : 0);

        /// <summary>A rule set again counts again; one that stays counts on.</summary>
        private void Key(Settings settings, int day, ReadOnlySpan<DaysLeft> shown)
        {
            KeyedSettings next = KeyedSettings.Of(settings, profile.Rounding);
            int[] nextDays = new int[next.Programs.Length];
            for (int index = 0; index < nextDays.Length; index++)
            {
                KeyedProgram program = next.Programs[index];
                KeyedProgram? before = keyed is not null && index < keyed.Programs.Length ? keyed.Programs[index] : null;
                bool stays = before?.Rule is not null && before.Rule.Equals(program.Rule);
                nextDays[index] = stays ? waterDays[index] : program.Interval > 0 ? day + program.DaysLeftOn(day) : 0;
                foreach (DaysLeft left in shown)
                {
                    nextDays[index] = left.Program == program.Letter ? day + left.Days : nextDays[index];
                }
            }

            keyed = next;
            waterDays = nextDays;
        }

        /// <summary>
        /// A counter follows midnights, not dates: setting the clock by hand moves the date under it, a change by itself
        /// that brings a new date counts, and after a lost clock it begins with a watering day.
        /// </summary>
        private void Jump(ClockChange change, long at)
        {
            int last = DayOf(at - 1 + ahead);
            ahead = change.Shows - change.At;
            int first = DayOf(at + ahead);
            for (int index = 0; index < waterDays.Length; index++)
            {
                waterDays[index] = change.Cause switch
                {
                    ClockChangeCause.PowerBack => first,
                    ClockChangeCause.ByItself when first > last => waterDays[index],
                    _ => waterDays[index] + first - last,
                };
            }
        }
    }
}
