using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Rules;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>Setting by setting; what the display cannot hold is kept and asked about.</summary>
internal sealed partial class Account
{
    private static readonly ListOf<ReadPart> TimesAndRuns = [ReadPart.StartTimes, ReadPart.RunTimes];

    private void Ask(Sentence taken, Sentence otherwise, Sentence why) => asked.Add((now, new Question(taken, otherwise, why), false));

    /// <summary>What a display cannot show was perhaps something else: a run time taken for a start, or the other way about.</summary>
    private void Misfits(Sentence taken, Sentence why) => asked.Add((now, new Question(taken, "", why, TimesAndRuns), false));

    private void Take(Said said)
    {
        switch (said)
        {
            case SaysController name:
                controller = name.Name;
                break;
            case SaysNow moment:
                readAt = moment.At;
                break;
            case SaysClock shown:
                TakeOnce(ReadPart.Clock, clock is not null && clock != shown.Shown);
                clock = shown.Shown;
                break;
            case SaysPercent value:
                TakeOnce(ReadPart.Percent, percent is not null && percent != value.Percent);
                percent = value.Percent;
                PercentFits(value.Percent);
                break;
            case SaysOff state:
                TakeOnce(ReadPart.OnOrOff, off is not null && off != state.Off);
                off = state.Off;
                break;
            case SaysHold hold:
                TakeOnce(ReadPart.RainHold, holdDays is not null && holdDays != hold.Days);
                holdDays = Math.Max(0, hold.Days);
                if (hold.Days < 0 || hold.Days > Math.Max(hear.Profile?.LargestRainHoldDays ?? 0, 99))
                {
                    Ask($"{hold.Days} days", "", "A rain delay is 0 to 99 days");
                }

                break;
            case OpensProgram opens:
                foreach (char letter in opens.Letters)
                {
                    Notes(letter);
                }

                break;
            case { Part: { } part }:
                OfPrograms(said, part);
                break;
        }
    }

    private void TakeOnce(ReadPart part, bool again)
    {
        settings.Add((now, new DoubtfulPart(part, null)));
        if (again)
        {
            Ask("", "", "Said twice, and differently; the later one was taken");
        }
    }

    private void OfPrograms(Said said, ReadPart part)
    {
        string of = letters[now];
        if (of.Length == 0)
        {
            of = "A";
            if (hear.Profile?.Programs != 1)
            {
                Ask("program A", "another program", "Which program it belongs to was not said");
            }
        }

        foreach (char letter in of)
        {
            settings.Add((now, new DoubtfulPart(part, letter)));
            ProgramNotes notes = Notes(letter);
            switch (said)
            {
                case SaysStart start:
                    TakeStart(notes, start.Time);
                    break;
                case SaysNone { Topic: Topic.Starts }:
                    notes.Starts ??= [];
                    break;
                case SaysNone { Topic: Topic.Runs }:
                    notes.Runs ??= [];
                    break;
                case SaysNone:
                    notes.Days ??= ReadDays.None;
                    break;
                case SaysRun run:
                    TakeRun(notes, run);
                    break;
                case SaysRunsInOrder runs:
                    for (int i = 0; i < runs.Seconds.Count; i++)
                    {
                        TakeRun(notes, new SaysRun([i + 1], runs.Seconds[i]));
                    }

                    break;
                default:
                    TakeDays(notes, said);
                    break;
            }
        }
    }

    private ProgramNotes Notes(char letter)
    {
        if (!programs.TryGetValue(letter, out ProgramNotes? notes))
        {
            programs[letter] = notes = new ProgramNotes();
        }

        return notes;
    }

    private void TakeStart(ProgramNotes notes, LocalTime time)
    {
        notes.Starts ??= [];
        if (!notes.Starts.Add(time))
        {
            Ask($"{time:HH:mm}", "", "This start time was said twice");
        }

        if (hear.Profile is { } profile && notes.Starts.Count > profile.StartTimesPerProgram)
        {
            Misfits($"{time:HH:mm}", $"This controller holds {profile.StartTimesPerProgram} start times per program");
        }
        else if (hear.Profile is { } display && ((time.Hour * 60) + time.Minute) % display.StartStepMinutes != 0)
        {
            Misfits($"{time:HH:mm}", $"This controller shows start times in steps of {display.StartStepMinutes} minutes");
        }
    }

    private void TakeRun(ProgramNotes notes, SaysRun run)
    {
        IEnumerable<int> stations = run.Stations;
        if (run.Stations.Count == 0)
        {
            if (hear.Profile is not { } profile)
            {
                Ask("", "", "How many stations there are is not known");
                return;
            }

            stations = Enumerable.Range(1, profile.Stations);
        }

        int largest = hear.Profile?.Stations ?? 48, limit = hear.Profile?.RunTimeLimitSeconds ?? 86_400;
        foreach (int station in stations)
        {
            if (station < 1 || station > largest)
            {
                asked.Add((now, new Question("", "", $"Left out: {(Sentence)$"stations here are 1 to {largest}"}", TimesAndRuns), true));
                notes.Runs ??= [];
                continue;
            }

            notes.Runs ??= [];
            if (notes.Runs.TryGetValue(station, out int before) && before != run.Seconds)
            {
                Ask(Hearing.Length(run.Seconds), Hearing.Length(before), $"Station {station} was said twice; the later one was taken");
            }

            notes.Runs[station] = run.Seconds;
        }

        if (run.Seconds > limit)
        {
            Misfits(Hearing.Length(run.Seconds), $"Longer than {Hearing.Length(limit)}, the longest run time");
        }
        else if (hear.Profile is { } display && run.Seconds % display.RunTimeStepSeconds != 0)
        {
            Misfits(Hearing.Length(run.Seconds),
                $"This controller shows run times in steps of {Hearing.Length(display.RunTimeStepSeconds)}");
        }
    }

    private void PercentFits(int value)
    {
        if (hear.Profile is { } profile && !profile.Percent.Settings().Contains(value) && value != 100)
        {
            PercentRange range = profile.Percent;
            int nearest = range.Settings().Append(100).MinBy(p => Math.Abs(p - value));
            Ask($"{value} percent", $"{nearest} percent",
                $"This controller shows {range.Least} to {range.Largest} in steps of {range.Step}");
        }
    }
}
