using System.CommandLine;
using System.Globalization;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Problems;

namespace Valvewright.Cli.Inputs;

/// <content>Reads each option's text.</content>
internal sealed partial class WhatBefalls
{
    private RainHold? HoldOf(string text) => Parts(text, "--hold", "2026-07-01T15:00,3", 2) is [var at, var days]
        && MomentOf(at, "--hold") is { } set && Whole(days, "--hold", 1, 999) is { } count ? new RainHold(set, count) : null;

    private OffSpell? OffOf(string text) => SpanOf(text, "--off") is ({ } from, { } to) ? new OffSpell(from, to) : null;

    private ClockSetting? ClockOf(string text)
    {
        string[] parts = text.Split(" shows ", StringSplitOptions.TrimEntries);
        if (parts.Length != 2 || MomentOf(parts[0], "--clock") is not { } at)
        {
            Must(parts.Length == 2, "--clock", text, "2026-07-01T15:00 shows 03:00", "what the clock shows is missing");
            return null;
        }

        return Hours.Parse(parts[1]) is { Success: true, Value: var time } ? new ClockSetting(at, at.Date + time)
            : MomentOf(parts[1], "--clock") is { } shown ? new ClockSetting(at, shown) : null;
    }

    private (LocalDateTime, int)? PercentOf(string text) => Parts(text, "--percent", "2026-07-01,60", 2) is [var at, var value]
        && MomentOf(at, "--percent") is { } from && Whole(value, "--percent", 0, 1000) is { } to ? (from, to) : null;

    private RunByHand? RunOf(string text)
    {
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length is not (2 or 3) || MomentOf(parts[0], "--manual") is not { } at)
        {
            Must(parts.Length is 2 or 3, "--manual", text, "2026-07-01T10:00,3,10 for 10 minutes of station 3, or 2026-07-01T10:00,A",
                "not a run by hand");
            return null;
        }

        if (parts.Length == 2)
        {
            bool isLetter = parts[1] is [>= 'A' and <= 'H'];
            Must(isLetter, "--manual", parts[1], "a program's letter, or a station and minutes",
                "which station or program runs is missing");
            return isLetter ? new RunByHand(at, 0, 0, parts[1][0]) : null;
        }

        return Whole(parts[1], "--manual", 1, 48) is { } station && Whole(parts[2], "--manual", 1, 24 * 60) is { } minutes
            ? new RunByHand(at, station, 60 * minutes) : null;
    }

    private PowerLoss? LossOf(string text)
    {
        string[] parts = text.Split(',', 2, StringSplitOptions.TrimEntries);
        if (SpanOf(parts[0], "--no-power") is not ({ } from, { } to))
        {
            return null;
        }

        LocalDateTime? then = parts.Length == 1 ? null : Hours.Parse(parts[1]) is { Success: true, Value: var time } ? to.Date + time
            : MomentOf(parts[1], "--no-power");
        return new PowerLoss(from, to, then, null, ValveStaysOpen: false);
    }

    private DaysLeft? CounterOf(string text)
    {
        string[] parts = text.Split('=', StringSplitOptions.TrimEntries);
        bool isOne = parts is [[>= 'A' and <= 'H'], _];
        Must(isOne, "--days-left", text, "A=2", "not a days-left counter");
        return isOne && Whole(parts[1], "--days-left", 0, 365) is { } days ? new DaysLeft(parts[0][0], days) : null;
    }

    private RainSensor? SensorOf(ParseResult parse, Site site)
    {
        (double threshold, int hours) = (UsualThresholdMm, UsualDryOutHours);
        if (parse.GetValue(sensor) is { } text && Parts(text, "--sensor", "6mm,24", 2) is [var amount, var dry])
        {
            threshold = DepthMm(amount, "--sensor", site) ?? threshold;
            hours = Whole(dry, "--sensor", 1, 240) ?? hours;
        }

        SortedDictionary<LocalDate, double> days = [];
        foreach (string given in Values(parse, rain))
        {
            if (Parts(given, "--rain", "2026-07-01,12mm", 2) is [var date, var fallen] && MomentOf(date, "--rain") is { } at
                && DepthMm(fallen, "--rain", site) is { } mm)
            {
                days[at.Date] = mm;
            }
        }

        if (days.Count == 0)
        {
            return null;
        }

        LocalDate first = days.Keys.First(), last = days.Keys.Last();
        return new RainSensor(threshold, hours, first,
            [.. Enumerable.Range(0, Period.DaysBetween(first, last) + 1).Select(d => days.GetValueOrDefault(first.PlusDays(d)))],
            LocalTime.Midnight);
    }

    /// <summary>Two dates, of which the second is included, or two times.</summary>
    private (LocalDateTime? From, LocalDateTime? To) SpanOf(string text, string option)
    {
        string[] ends = text.Split("..", StringSplitOptions.TrimEntries);
        if (ends.Length != 2)
        {
            Must(false, option, text, "2026-07-01..2026-07-05", "not a span of dates");
            return (null, null);
        }

        bool isDate = LocalDatePattern.Iso.Parse(ends[1]).Success;
        (LocalDateTime? from, LocalDateTime? to) = (MomentOf(ends[0], option), MomentOf(ends[1], option));
        to = isDate ? to?.PlusDays(1) : to;
        Must(from is null || to is null || from < to, option, text, "the earlier one first", "the end is not after the start");
        return from < to ? (from, to) : (null, null);
    }

    private LocalDateTime? MomentOf(string text, string option)
    {
        if (LocalDatePattern.Iso.Parse(text) is { Success: true, Value.Year: > 1900 and < 2200 } date)
        {
            return date.Value.AtMidnight();
        }

        foreach (LocalDateTimePattern pattern in Moments)
        {
            if (pattern.Parse(text) is { Success: true, Value.Year: > 1900 and < 2200 } moment)
            {
                return moment.Value;
            }
        }

        Must(false, option, text, "2026-07-01 or 2026-07-01T15:00", "not a date or time");
        return null;
    }

    private string[]? Parts(string text, string option, Sentence example, int count)
    {
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        Must(parts.Length == count, option, text, example, "cannot be read");
        return parts.Length == count ? parts : null;
    }

    private int? Whole(string text, string option, int least, int most)
    {
        bool isOne = int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int value) && value >= least
            && value <= most;
        Must(isOne, option, text, $"a whole number from {least} to {most}", "this number cannot be used");
        return isOne ? value : null;
    }

    /// <summary>A depth with its unit, or in the site's.</summary>
    private double? DepthMm(string text, string option, Site site)
    {
        bool isInches = text.EndsWith("in", StringComparison.Ordinal)
            || (site.Units == UnitSystem.UsCustomary && !text.EndsWith("mm", StringComparison.Ordinal));
        string number = text.Replace("mm", "", StringComparison.Ordinal).Replace("in", "", StringComparison.Ordinal).Trim();
        bool isOne = double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && value is >= 0 and <= 1000;
        Must(isOne, option, text, "an amount as 6mm or 0.25in", "not a depth of rain");
        return isOne ? isInches ? value * UsUnits.MmPerInch : value : null;
    }

    private void Must(bool holds, string option, string found, Sentence expected, Sentence message)
    {
        if (!holds)
        {
            problems.Add(new Problem(option, 0, 0, found, expected, null, message));
        }
    }
}
