using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Readings;

namespace Valvewright.Tests.Slips;

/// <summary>Slips of the controller as a whole.</summary>
internal sealed partial class SlipMaker
{
    /// <summary>Percent of another time of year; on where it should be off.</summary>
    private bool Percent()
    {
        if (!IsOn)
        {
            return Touch("off") && Set(reading with { Off = false }, new Label(FindingKind.PercentOutOfSeason));
        }

        int[] others = [.. Profile.Percent.Settings().Where(p => p is > 0 and <= 200 && Math.Abs(p - reading.Percent!.Value) >= 10)];
        return others.Length > 0 && Touch("percent")
            && Set(reading with { Percent = others[random.Next(others.Length)] }, new Label(FindingKind.PercentOutOfSeason));
    }

    private bool Clock()
    {
        LocalDateTime right = Display.ClockOf(site, Profile, at);
        LocalDateTime shown = random.Next(4) switch
        {
            0 => right.PlusHours(right.Hour < 12 ? 12 : -12),
            1 => right.PlusMinutes((random.Next(2) == 0 ? 1 : -1) * 20 * random.Next(1, 20)),
            2 => right.PlusDays((random.Next(2) == 0 ? 1 : -1) * random.Next(1, 4)),
            _ => right.PlusYears(random.Next(2) == 0 ? 1 : -1),
        };
        if (!Touch("clock"))
        {
            return false;
        }

        // Many displays show a weekday and no date; a wrong year shows only in a date.
        bool date = shown.Year != right.Year || random.Next(2) == 0;
        return Set(reading with { Clock = new ClockShown(shown.TimeOfDay, shown.DayOfWeek, date ? shown.Date : null) },
            new Label(FindingKind.ClockWrong));
    }
}
