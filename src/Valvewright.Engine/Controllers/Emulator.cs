using NodaTime;
using Valvewright.Engine.Controllers.Mechanism;

namespace Valvewright.Engine.Controllers;

/// <summary>What a controller with given settings really does, to the second of its own clock (docs/emulator.md).</summary>
public static class Emulator
{
    /// <summary>Days before the first date at whose first midnight a controller is taken to be idle.</summary>
    public const int DaysOfHistory = 7;

    /// <summary>Every run of a station that belongs to a start on the dates <paramref name="from"/> to <paramref name="to"/>, both
    /// included.</summary>
    /// <remarks>
    /// A start just before midnight belongs to the day it began, so a run may open or close after the last date. What
    /// earlier starts leave open stands apart in <see cref="Timeline.CarriedIn"/>. The controller is taken to have been
    /// idle a week before the first date.
    /// </remarks>
    public static Timeline Run(Profile profile, Settings settings, LocalDate from, LocalDate to) =>
        Run(profile, settings, ControllerState.Undisturbed, from, to);

    /// <summary>The same for a controller to which something has happened.</summary>
    /// <param name="profile">What the controller can hold and how it behaves.</param>
    /// <param name="settings">What is set at first.</param>
    /// <param name="state">What befalls it, in steady seconds of its clock; so are the dates and the timeline.</param>
    /// <param name="from">First date.</param>
    /// <param name="to">Last date.</param>
    public static Timeline Run(Profile profile, Settings settings, ControllerState state, LocalDate from, LocalDate to)
    {
        TimelineSink sink = new();
        Run(profile, settings, state, ClockSeconds.AtMidnight(from), ClockSeconds.AtMidnight(to.PlusDays(1)), ref sink);
        return sink.ToTimeline();
    }

    /// <summary>The same for starts that fall due from one steady second up to, not including, another; nothing is allocated for an
    /// event.</summary>
    public static void Run<TSink>(Profile profile, Settings settings, ControllerState state, long from, long to, ref TSink sink)
        where TSink : IRunSink, allows ref struct
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(state);
        long begin = state.KeyedIn ?? from - DaysOfHistory * ClockSeconds.PerDay;
        if (begin >= to)
        {
            return;
        }

        // A run may go on after the last start of interest, so the clock and the settings are known beyond it.
        List<Stretch> stretches = Stretch.Over(profile, settings, state, begin, long.MaxValue / 4);
        RunningController<TSink> controller = new(profile, stretches, state, from, to);
        controller.Run(ref sink);
    }

    /// <summary>
    /// A run time scaled by percent adjust and rounded as the profile says; 0 when nothing is left of it. At 100 percent
    /// it stays as set.
    /// </summary>
    public static int PercentOf(int seconds, int percent, PercentRounding rounding)
    {
        if (percent == 100)
        {
            return seconds;
        }

        long hundredths = (long)seconds * percent;
        return (int)(rounding switch
        {
            PercentRounding.NearestSecond => (hundredths + 50) / 100,
            PercentRounding.NearestMinute => (hundredths + 3000) / 6000 * 60,
            PercentRounding.DownToMinute => hundredths / 6000 * 60,
            PercentRounding.UpToMinute => (hundredths + 5999) / 6000 * 60,
            _ => throw new ArgumentOutOfRangeException(nameof(rounding), rounding, null),
        });
    }
}
