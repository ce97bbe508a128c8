using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>Watering days beside the planned ones.</summary>
internal static class DaysAgainstPlan
{
    public static void Inspect(Inspection on, Consequences consequences, Program planned, Program found)
    {
        if (AreSame(planned.Days, found.Days))
        {
            return;
        }

        CheckWords words = on.Words;
        char letter = planned.Letter;
        DaysChange mend = new(letter, planned.Days);
        if (found.Days is null or DaysOfWeek { Days.Count: 0 })
        {
            on.Suspect(FindingKind.EmptyPart, Certainty.Sure, letter, [], words.Say("empty.days", letter),
                words.Say("empty.out", letter), mend);
            return;
        }

        (FindingKind? kind, string sentences) = consequences.Of(on.Expected.With(planned with { Days = found.Days }));
        string outside = words.Say("days.out");
        if (found.Days is EveryNDays now && planned.Days is EveryNDays then && now.Days == then.Days)
        {
            on.Suspect(
                FindingKind.IntervalWrongDay, Certainty.Sure, letter, [],
                words.Say("interval", letter, now.Days, Next(on, now), Next(on, then)) + sentences, words.Say("interval.out"), mend);
        }
        else if (kind == FindingKind.OutsideHours)
        {
            on.Suspect(
                FindingKind.OutsideDays, Certainty.Sure, letter, [],
                words.Say("days", letter, words.Days(found.Days), words.Days(planned.Days)) + " " + words.Say("then.days", on.Supply),
                    words.Say("hours.out"), mend);
        }
        else if (found.Days is OddDays && !on.Profile.OddSkips31)
        {
            on.Suspect(
                FindingKind.OddOnThe31st, Certainty.Sure, letter, [],
                OddText(on, letter) + " " + words.Say("odd.plan", words.Days(planned.Days)) + sentences, words.Say("odd.out"), mend);
        }
        else
        {
            on.Suspect(
                FindingKind.DaysDiffer, Certainty.Sure, letter, [],
                    words.Say("days", letter, words.Days(found.Days), words.Days(planned.Days)) + sentences, outside, mend);
        }
    }

    /// <summary>Odd dates, with the next 31st that has a 1st after it.</summary>
    public static string OddText(Inspection on, char letter)
    {
        LocalDate date = on.At.Date;
        while (date.Day != 31)
        {
            date = date.PlusDays(1);
        }

        return on.Words.Say("odd", letter, on.Words.Date(date));
    }

    /// <summary>Whether two rules water on the same dates.</summary>
    public static bool AreSame(DayRule? one, DayRule? other) => (one, other) switch
    {
        (null or DaysOfWeek { Days.Count: 0 }, null or DaysOfWeek { Days.Count: 0 }) => true,
        (EveryNDays a, EveryNDays b) => a.Days == b.Days && Period.DaysBetween(a.Anchor, b.Anchor) % a.Days == 0,
        (DaysOfWeek a, DaysOfWeek b) => a.Days.ToHashSet().SetEquals(b.Days),
        (EveryNDays { Days: 1 }, DaysOfWeek { Days.Count: 7 }) or (DaysOfWeek { Days.Count: 7 }, EveryNDays { Days: 1 }) => true,
        _ => one == other,
    };

    private static string Next(Inspection on, EveryNDays rule) =>
        on.Words.Date(on.ControllerDate.PlusDays(Expectation.DaysLeft(rule, on.ControllerDate)));
}
