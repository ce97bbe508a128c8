using System.Text.RegularExpressions;
using Valvewright.Engine.Controllers;

namespace Valvewright.Engine.Readings;

/// <summary>Stations and run times.</summary>
internal sealed partial class ReadingParser
{
    private const int LargestStation = 48;
    private const int LongestRunSeconds = 24 * 3600;

    private bool runListDoubted;

    [GeneratedRegex("^(?:stations|station|sta|stn|st|s|e|est|zone|z|#)?([0-9]{1,3})(?:-([0-9]{1,3}))?(?:=|:)(.+)$")]
    private static partial Regex Pair();

    [GeneratedRegex("^(?:stations|station|sta|stn|st|s|e|est|zone|z|#)([0-9]{1,3})(?:-([0-9]{1,3}))?=?$")]
    private static partial Regex MarkedStation();

    [GeneratedRegex("^([0-9]{1,3})(?:-([0-9]{1,3}))?=?$")]
    private static partial Regex PlainStation();

    /// <summary>Minutes may go without a unit only where they end the word: "10", "1h20".</summary>
    [GeneratedRegex("^(?:([0-9]{1,2})(?:h|hr))?(?:([0-9]{1,4})(?:mins|min|m|'|$))?(?:([0-9]{1,4})(?:sec|s|\"))?$")]
    private static partial Regex Duration();

    [GeneratedRegex("^([0-9]{1,2}):([0-9]{2})$")]
    private static partial Regex ColonDuration();

    /// <summary>"1=10", "st1 10", "#1-4=10", and in a section of stations "1 10".</summary>
    private bool TakeStationPair(Word word)
    {
        bool inStations = section == Section.Stations;
        if (Pair().Match(word.Text) is { Success: true } pair && (word.Text.Contains('=') || !char.IsDigit(word.Text[0])))
        {
            at++;
            Word value = word with { Text = pair.Groups[3].Value };
            return AddRuns(pair, value, DurationOf(value));
        }

        Match marked = MarkedStation().Match(word.Text);
        if (!marked.Success && (inStations || (word.HasColon && letter is not null && section != Section.Starts)))
        {
            marked = PlainStation().Match(word.Text);
        }

        if (!marked.Success || (marked.Groups[0].Value == word.Text && char.IsDigit(word.Text[0]) && SaysPercent(Following)))
        {
            return false;
        }

        at++;
        SkipFillers();
        if (Current is { } off && Lexicon.SenseOf(off.Text) is Sense.None or Sense.Off)
        {
            at++;
            return AddRuns(marked, word, 0);
        }

        if (Current is not { } run || DurationOf(run) is not { } seconds)
        {
            Left(word, "a station without a run time");
            section = Section.Stations;
            return true;
        }

        at++;
        return AddRuns(marked, run, WithUnits(seconds, run));
    }

    private bool AddRuns(Match stations, Word value, int? seconds)
    {
        section = Section.Stations;
        int first = int.Parse(stations.Groups[1].ValueSpan);
        int last = stations.Groups[2].Success ? int.Parse(stations.Groups[2].ValueSpan) : first;
        int largest = profile?.Stations ?? LargestStation;
        if (seconds is null)
        {
            Left(value, "this is no run time");
        }
        else if (first < 1 || last < first || last > largest)
        {
            Left(value, $"stations here are 1 to {largest}");
        }
        else
        {
            for (int station = first; station <= last; station++)
            {
                AddRun(station, seconds.Value, value);
            }
        }

        return true;
    }

    private void AddRun(int station, int seconds, Word word)
    {
        ProgramNotes notes = Notes(word);
        notes.Runs ??= [];
        if (notes.Runs.TryGetValue(station, out int before) && before != seconds)
        {
            Doubted(word, Length(seconds), Length(before), $"Station {station} was said twice; the later one was taken");
        }

        notes.Runs[station] = seconds;
        if (seconds > (profile?.RunTimeLimitSeconds ?? LongestRunSeconds))
        {
            Doubted(word, Length(seconds), "", $"Longer than {Length(profile?.RunTimeLimitSeconds ?? LongestRunSeconds)}, the longest run time");
        }
        else if (profile is not null && seconds % profile.RunTimeStepSeconds != 0)
        {
            Doubted(word, Length(seconds), "", $"This controller shows run times in steps of {Length(profile.RunTimeStepSeconds)}");
        }
    }

    /// <summary>A bare number: a run time in a list, a percent, days left, or a doubt.</summary>
    private bool TakeNumber(Word word)
    {
        if (word.Text.EndsWith('%') && int.TryParse(word.Text[..^1], out int sign))
        {
            at++;
            SetPercent(sign, word);
            return true;
        }

        if (int.TryParse(word.Text, out int number) && number >= 0)
        {
            Sense? after = Following is { BeginsStatement: false } next ? Lexicon.SenseOf(next.Text) : null;
            if (after == Sense.Percent)
            {
                at += 2;
                SetPercent(number, word);
                return true;
            }

            if (after == Sense.Left || (after == Sense.Days && at + 2 < words.Count && Lexicon.SenseOf(words[at + 2].Text) == Sense.Left))
            {
                at += after == Sense.Left ? 2 : 3;
                SetDaysLeft(number, word);
                return true;
            }
        }

        return section == Section.RunList && TakeListedRun(word);
    }

    /// <summary>"60 percent" after run times is the percent, not station 60.</summary>
    private static bool SaysPercent(Word? following) =>
        following is { BeginsStatement: false } next && Lexicon.SenseOf(next.Text) == Sense.Percent;

    private bool TakeListedRun(Word word)
    {
        if (DurationOf(word) is not { } seconds)
        {
            return false;
        }

        at++;
        seconds = WithUnits(seconds, word);
        ProgramNotes notes = Notes(word);
        int station = (notes.Runs?.Keys.DefaultIfEmpty(0).Max() ?? 0) + 1;
        if (station > (profile?.Stations ?? LargestStation))
        {
            Left(word, "more run times than stations");
            return true;
        }

        if (!runListDoubted)
        {
            Doubted(word, $"station {station}", "", "Run times without station numbers were taken as stations in order");
            runListDoubted = true;
        }

        AddRun(station, seconds, word);
        return true;
    }

    private int? DurationOf(Word word)
    {
        if (ColonDuration().Match(word.Text) is { Success: true } colon)
        {
            int big = int.Parse(colon.Groups[1].ValueSpan), small = int.Parse(colon.Groups[2].ValueSpan);
            if (small > 59)
            {
                return null;
            }

            int hoursMinutes = big * 3600 + small * 60, minutesSeconds = big * 60 + small;
            bool fine = profile is { RunTimeStepSeconds: < 60 };
            if (fine || (profile is null && big > 4))
            {
                Doubted(word, Length(fine ? minutesSeconds : hoursMinutes), Length(fine ? hoursMinutes : minutesSeconds), "Hours and minutes, or minutes and seconds");
            }

            return fine ? minutesSeconds : hoursMinutes;
        }

        if (word.Text.Length == 0 || Duration().Match(word.Text) is not { Success: true } match)
        {
            return null;
        }

        int Part(int group) => match.Groups[group].Success ? int.Parse(match.Groups[group].ValueSpan) : 0;
        return Part(1) * 3600 + Part(2) * 60 + Part(3);
    }

    /// <summary>Unit words after a number: "10 min", "1 hour 20", "45 s".</summary>
    private int WithUnits(int seconds, Word number)
    {
        bool plain = int.TryParse(number.Text, out int value);
        switch (Current is { BeginsStatement: false } unit ? Lexicon.SenseOf(unit.Text) : null)
        {
            case Sense.Minutes:
                at++;
                return seconds;
            case Sense.Seconds when plain:
                at++;
                return value;
            case Sense.Hours when plain:
                at++;
                if (Current is { BeginsStatement: false } rest && int.TryParse(rest.Text, out int minutes)
                    && Following is { } word && Lexicon.SenseOf(word.Text) == Sense.Minutes)
                {
                    at += 2;
                    return value * 3600 + minutes * 60;
                }

                return value * 3600;
            default:
                return seconds;
        }
    }

    private static string Length(int seconds) =>
        seconds % 60 == 0 ? $"{seconds / 60} min" : seconds < 60 ? $"{seconds} s" : $"{seconds / 60} min {seconds % 60} s";
}
