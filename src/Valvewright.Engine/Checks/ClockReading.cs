using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What the clock showed, beside what it should have shown.</summary>
internal static class ClockReading
{
    /// <summary>
    /// No one reads a clock to the second over the telephone, and small clocks drift by minutes between visits: common practice is to let
    /// a quarter of an hour pass.
    /// </summary>
    public const int ToleranceMinutes = 15;

    /// <summary>A full date and time from what was read; the missing parts are those nearest to right. Null where nothing was
    /// read.</summary>
    public static LocalDateTime? Resolve(ClockShown? shown, LocalDateTime right)
    {
        if (shown is null || (shown.Time is null && shown.Weekday is null && shown.Date is null))
        {
            return null;
        }

        LocalTime time = shown.Time ?? right.TimeOfDay;
        if (shown.Date is { } date)
        {
            return date + time;
        }

        IEnumerable<LocalDate> dates = Enumerable.Range(-3, 7).Select(right.Date.PlusDays);
        if (shown.Weekday is { } day)
        {
            return dates.First(d => d.DayOfWeek == day) + time;
        }

        // Only a time: the day was not read, so it is not blamed; what is left is within half a day.
        LocalDateTime today = right.Date + time;
        return Math.Abs(MinutesAhead(today, right)) > 12 * 60 + ToleranceMinutes
            ? today.PlusDays(today > right ? -1 : 1)
            : today;
    }

    public static bool IsRight(LocalDateTime? shown, LocalDateTime right) =>
        shown is not { } at || Math.Abs(MinutesAhead(at, right)) <= ToleranceMinutes;

    public static double MinutesAhead(LocalDateTime shown, LocalDateTime right) =>
        (ClockSeconds.From(shown) - ClockSeconds.From(right)) / 60.0;

    /// <summary>Adds what is wrong with the clock.</summary>
    public static void Inspect(Inspection on)
    {
        if (on.Found.ClockShows is not { } shown)
        {
            return;
        }

        CheckWords words = on.Words;
        double ahead = MinutesAhead(shown, on.RightClock);
        double size = Math.Abs(ahead);
        string shows = on.Reading.Clock is { Weekday: null, Date: null } ? words.Time(shown.TimeOfDay) : words.Moment(shown),
            at = words.Time(on.At.TimeOfDay);
        bool sameTime = Math.Abs(MinutesAhead(shown.Date + on.RightClock.TimeOfDay, shown)) <= ToleranceMinutes;
        int savings = StandardTime.BehindAt(on.World.Zone, on.World.Zone.AtLeniently(on.At).ToInstant()).Seconds / 60;
        ClockKeyed mend = new(on.RightClock);
        if (sameTime && shown.Date != on.RightClock.Date)
        {
            bool year = shown.Year != on.RightClock.Year && shown.Month == on.RightClock.Month && shown.Day == on.RightClock.Day;
            on.Suspect(
                FindingKind.ClockWrong, Certainty.Sure, null, [],
                year ? words.Say("clock.year", shown.Year, on.RightClock.Year)
                    : words.Say("clock.day", words.Date(shown.Date), words.Date(on.RightClock.Date)),
                words.Say("clock.out.day"), mend);
        }
        else if (Math.Abs(size - 12 * 60) <= ToleranceMinutes)
        {
            on.Suspect(FindingKind.ClockWrong, Certainty.Sure, null, [], words.Say("clock.half", shows, at), words.Say("clock.out"), mend);
        }
        else if (savings > 0 && !on.Profile.ClockKnowsDaylightSaving && Math.Abs(ahead - savings) <= ToleranceMinutes)
        {
            on.Suspect(FindingKind.ClockWrong, Certainty.Likely, null, [], words.Say("clock.summer", shows, at),
                words.Say("clock.out"), mend);
        }
        else
        {
            string amount = words.Offset(size);
            string text = words.Say("clock.hour", shows, at, amount, words.Say(ahead > 0 ? "clock.fast" : "clock.slow"),
                words.Say(ahead > 0 ? "clock.early" : "clock.late"));
            on.Suspect(FindingKind.ClockWrong, Certainty.Sure, null, [], text, words.Say("clock.out"), mend);
        }
    }
}
