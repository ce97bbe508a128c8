using NodaTime;
using Valvewright.Engine.Plans;

namespace Valvewright.Engine.Checks;

/// <summary>Off, rain delay and percent adjust.</summary>
internal static class WholeController
{
    /// <summary>Half and less of the year's peak demand; a controller in the middle of summer is seldom set so low. Our own
    /// bound.</summary>
    private const int LowInSummer = 50;

    /// <summary>More than what is set, in the middle of winter. Our own bound.</summary>
    private const int HighInWinter = 110;

    public static void Inspect(Inspection on)
    {
        bool shouldRun = !on.Expected.Off;
        if (on.Reading.Off == true && shouldRun)
        {
            Certainty certainty = on.Planned is not null || IsWithin(on, summer: true, months: 1) ? Certainty.Sure
                : IsWithin(on, summer: true, months: 2) ? Certainty.Likely : Certainty.Possible;
            on.Suspect(FindingKind.OffLeftOn, certainty, null, [], on.Words.Say("off"), on.Words.Say("off.out"), new SwitchChange(true));
        }
        else if (on.Reading.Off == false && !shouldRun)
        {
            (Spell now, _) = Spells(on);
            on.Suspect(
                FindingKind.PercentOutOfSeason, Certainty.Sure, null, [], on.Words.Say("winter", on.Words.Date(now.From)),
                    on.Words.Say("winter.out"), new SwitchChange(false));
        }

        if (on.Reading.RainHoldDays is > 0 and var days && shouldRun)
        {
            string until = on.Words.Date(on.At.Date.PlusDays(Math.Min(days, 3650)));
            on.Suspect(FindingKind.RainHoldLeft, Certainty.Likely, null, [], on.Words.Say("hold", days, until), on.Words.Say("hold.out"),
                new HoldChange(0));
        }

        if (on.Reading.Percent is { } percent && shouldRun)
        {
            Percent(on, percent);
        }
    }

    private static void Percent(Inspection on, int percent)
    {
        CheckWords words = on.Words;
        if (on.Planned is null)
        {
            if ((percent <= LowInSummer && IsWithin(on, summer: true, months: 1))
                || (percent >= HighInWinter && IsWithin(on, summer: false, months: 1)))
            {
                on.Suspect(
                    FindingKind.PercentOutOfSeason, Certainty.Possible, null, [], words.Say("percent.alone", percent),
                        words.Say("percent.out", percent), new PercentChange(100));
            }

            return;
        }

        int wanted = on.Expected.Settings.PercentAdjust;
        if (percent == wanted)
        {
            return;
        }

        (Spell now, Spell? before) = Spells(on);
        string longer = words.Say(percent > wanted ? "percent.longer" : "percent.shorter");
        string because = before is { } old && old.Percent == percent
            ? words.Say("percent.visit", percent, wanted, longer, words.Date(old.From), words.Date(now.From))
            : words.Say("percent", percent, wanted, longer);
        int share = wanted > 0 ? (int)Math.Round(100.0 * percent / wanted) : percent;
        on.Suspect(FindingKind.PercentOutOfSeason, Certainty.Sure, null, [], because, words.Say("percent.out", share),
            new PercentChange(wanted));
    }

    /// <summary>The spell of the plan in which the reading falls, and the one before it.</summary>
    private static (Spell Now, Spell? Before) Spells(Inspection on)
    {
        Spell[] spells = [.. Spell.Of(on.Planned!, on.At.Date.PlusYears(-2), on.At.Date)];
        return (spells[^1], spells.Length > 1 ? spells[^2] : null);
    }

    /// <summary>Within so many months of July, or of January (south of the equator the other way about).</summary>
    private static bool IsWithin(Inspection on, bool summer, int months)
    {
        int month = summer != on.South ? 7 : 1;
        int apart = Math.Abs(on.At.Month - month);
        return Math.Min(apart, 12 - apart) <= months;
    }
}
