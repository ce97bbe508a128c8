using System.Text.RegularExpressions;
using NodaTime;

namespace Valvewright.Engine.Readings;

/// <summary>Times of day: start times and the clock.</summary>
internal sealed partial class ReadingParser
{
    [GeneratedRegex("^([0-9]{1,2})[:.h]([0-9]{2})(a|p|am|pm|a\\.m|p\\.m)?$")]
    private static partial Regex ClockTime();

    [GeneratedRegex("^([0-9]{1,2})(a|p|am|pm|a\\.m|p\\.m)$")]
    private static partial Regex HourWithHalf();

    [GeneratedRegex("^[0-9]{1,2}([:.h][0-9]{2})?(a|p|am|pm|a\\.m|p\\.m)$")]
    private static partial Regex HalfDaySuffix();

    /// <summary>Only a 24-hour display shows an hour above 12, or one with a leading zero.</summary>
    [GeneratedRegex("^(0[0-9]|1[3-9]|2[0-3])[:.h][0-9]{2}$")]
    private static partial Regex TwentyFourHours();

    [GeneratedRegex("^[0-9]{3,4}$")]
    private static partial Regex DigitsOnly();

    private bool TakeTime(Word word)
    {
        if (section is Section.Stations or Section.RunList && !SaysHalf(word))
        {
            return false;
        }

        int before = at;
        if (TimeAt(word) is not { } time)
        {
            // What is no time of day has been told and passed; the next word stands for itself.
            return at > before;
        }

        AddStart(time, word);
        return true;
    }

    private bool SaysHalf(Word word) =>
        HalfDaySuffix().IsMatch(word.Text) || (ClockTime().IsMatch(word.Text) && Following is { } half && Lexicon.SenseOf(half.Text) is Sense.Am or Sense.Pm);

    /// <summary>The time of day at the current word, which is then passed; null, and nothing passed, where there is none.</summary>
    private LocalTime? TimeAt(Word word)
    {
        if (!Digits(word, out int hour, out int minute, out string half, out bool bareHour))
        {
            return null;
        }

        at++;
        if (half.Length == 0 && Current is { } next && Lexicon.SenseOf(next.Text) is Sense.Am or Sense.Pm)
        {
            half = Lexicon.SenseOf(next.Text) == Sense.Am ? "a" : "p";
            at++;
        }

        if (hour == 24 && minute == 0 && half.Length == 0)
        {
            Doubted(word, "00:00", "", "24:00 belongs to the day after; taken as midnight at the start of the water day");
            return LocalTime.Midnight;
        }

        if (hour > 23 || minute > 59)
        {
            Left(word, "this is no time of day");
            return null;
        }

        return half.Length > 0 ? WithHalf(word, hour, minute, half) : WithoutHalf(word, hour, minute, bareHour);
    }

    private bool Digits(Word word, out int hour, out int minute, out string half, out bool bareHour)
    {
        (hour, minute, half, bareHour) = (0, 0, "", false);
        if (ClockTime().Match(word.Text) is { Success: true } full)
        {
            (hour, minute, half) = (int.Parse(full.Groups[1].ValueSpan), int.Parse(full.Groups[2].ValueSpan), full.Groups[3].Value);
            return true;
        }

        if (HourWithHalf().Match(word.Text) is { Success: true } short12)
        {
            (hour, half) = (int.Parse(short12.Groups[1].ValueSpan), short12.Groups[2].Value);
            return true;
        }

        bool halfFollows = Following is { } next && Lexicon.SenseOf(next.Text) is Sense.Am or Sense.Pm;
        if (word.Text.Length <= 2 && int.TryParse(word.Text, out hour) && hour >= 0 && (halfFollows || section == Section.Starts))
        {
            bareHour = !halfFollows;
            return true;
        }

        if (section == Section.Starts && DigitsOnly().IsMatch(word.Text))
        {
            int digits = int.Parse(word.Text);
            (hour, minute) = (digits / 100, digits % 100);
            return true;
        }

        return false;
    }

    private LocalTime WithHalf(Word word, int hour, int minute, string half)
    {
        bool afternoon = half[0] == 'p';
        if (hour is 0 or > 12)
        {
            LocalTime taken = new(hour, minute);
            Doubted(word, $"{taken:HH:mm}", "", "An hour of 0 or above 12 has no a.m. or p.m.");
            return taken;
        }

        return new LocalTime(hour % 12 + (afternoon ? 12 : 0), minute);
    }

    private LocalTime WithoutHalf(Word word, int hour, int minute, bool bareHour)
    {
        LocalTime taken = new(hour, minute);
        bool couldBeEither = hour is >= 1 and <= 12 && !TwentyFourHours().IsMatch(word.Text);
        if (twelveHours && couldBeEither)
        {
            LocalTime morning = new(hour % 12, minute);
            Doubted(word, $"{morning:HH:mm}", $"{morning.PlusHours(12):HH:mm}", "a.m. or p.m. was not said");
            return morning;
        }

        if (couldBeEither && (!styleIsKnown || bareHour))
        {
            Doubted(word, $"{taken:HH:mm}", hour == 12 ? "00:00" : $"{taken.PlusHours(12):HH:mm}", "Taken as a 24-hour time");
        }

        return taken;
    }

    private void AddStart(LocalTime time, Word word)
    {
        ProgramNotes notes = Notes(word);
        section = Section.Starts;
        notes.Starts ??= [];
        if (!notes.Starts.Add(time))
        {
            Doubted(word, $"{time:HH:mm}", "", "This start time was said twice");
        }

        if (profile is not null && notes.Starts.Count > profile.StartTimesPerProgram)
        {
            Doubted(word, $"{time:HH:mm}", "", $"This controller holds {profile.StartTimesPerProgram} start times a program");
        }
        else if (profile is not null && (time.Hour * 60 + time.Minute) % profile.StartStepMinutes != 0)
        {
            Doubted(word, $"{time:HH:mm}", "", $"This controller shows start times in steps of {profile.StartStepMinutes} minutes");
        }
    }
}
