using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings;

/// <summary>Walks over the words of a reading once; each word either says something, opens a section, or becomes a doubt.</summary>
internal sealed partial class ReadingParser
{
    /// <summary>A longer word is no clump of day letters.</summary>
    private const int LongestDayClump = 7;

    private readonly List<Word> words;
    private readonly Profile? profile;
    private readonly bool twelveHours;
    private readonly bool styleIsKnown;
    private readonly List<Doubt> doubts = [];
    private readonly SortedDictionary<char, ProgramNotes> programs = [];
    private int at;
    private char? letter;
    private Section section;
    private string? controller;
    private ClockShown? clock;
    private LocalDateTime? readAt;
    private int? percent;
    private bool? off;
    private int? holdDays;

    public ReadingParser(List<Word> words, Profile? profile, ClockStyle? style)
    {
        this.words = words;
        this.profile = profile;
        bool saysHalf = words.Any(w => Lexicon.SenseOf(w.Text) is Sense.Am or Sense.Pm || HalfDaySuffix().IsMatch(w.Text));
        bool showsAfternoonHours = words.Any(w => TwentyFourHours().IsMatch(w.Text));
        styleIsKnown = style is not null || saysHalf || showsAfternoonHours;
        twelveHours = style == ClockStyle.Hours12 || (style is null && saysHalf);
    }

    private enum Section
    {
        None,
        Starts,

        /// <summary>Pairs of station and run time.</summary>
        Stations,

        /// <summary>Run times alone, in the order of stations.</summary>
        RunList,
        Days,
    }

    private Word? Current => at < words.Count ? words[at] : null;

    private Word? Following => at + 1 < words.Count ? words[at + 1] : null;

    public void DoubtWholeText(Phrase why) => doubts.Add(Doubt.Of(1, 1, "", "", "", why));

    public ReadText Parse()
    {
        while (Current is { } word)
        {
            int before = at;
            if (!(TakeLetter(word) || TakeStationPair(word) || TakeTime(word) || TakeNumber(word) || TakeDay(word) || TakeSense(word)))
            {
                NotUnderstood(word);
                at++;
            }

            at = Math.Max(at, before + 1);
        }

        return new ReadText(
            new Reading
            {
                Controller = controller,
                ReadAt = readAt,
                Clock = clock,
                Percent = percent,
                Off = off,
                RainHoldDays = holdDays,
                Programs = programs.Select(p => p.Value.ToProgram(p.Key)).ToListOf(),
            },
            doubts.OrderBy(d => d.Line).ThenBy(d => d.Column).ToListOf());
    }

    private bool TakeLetter(Word word)
    {
        if (word.Text.Length != 1 || word.Text[0] is < 'a' or > 'h' || !(word.HasColon || word.BeginsStatement))
        {
            return false;
        }

        OpenProgram(char.ToUpperInvariant(word.Text[0]), word);
        at++;
        return true;
    }

    private bool TakeSense(Word word)
    {
        if (Lexicon.SenseOf(word.Text) is not { } sense)
        {
            return false;
        }

        at++;
        switch (sense)
        {
            case Sense.Filler or Sense.Minutes or Sense.Hours or Sense.Seconds:
                break;
            case Sense.Program:
                TakeProgramName(word);
                break;
            case Sense.Starts:
                section = Section.Starts;
                break;
            case Sense.Station:
                section = word.Text.StartsWith("run", StringComparison.Ordinal) || word.Text.StartsWith("riego", StringComparison.Ordinal)
                    ? Section.RunList
                    : Section.Stations;
                break;
            case Sense.Days:
                section = Section.Days;
                break;
            case Sense.Percent:
                TakePercent(word);
                break;
            case Sense.Clock:
                clock = TakeMoment(word) is { } shown ? shown : clock;
                break;
            case Sense.ReadAt:
                TakeReadAt(word);
                break;
            case Sense.Controller:
                TakeName();
                break;
            case Sense.Hold:
                TakeHold(word);
                break;
            case Sense.Off:
                TakeNothing(word, wholeController: true);
                break;
            case Sense.On:
                TakeOn();
                break;
            case Sense.None:
                TakeNothing(word, wholeController: false);
                break;
            case Sense.Noon:
                AddStart(new LocalTime(12, 0), word);
                break;
            case Sense.Midnight:
                AddStart(LocalTime.Midnight, word);
                break;
            case Sense.Am or Sense.Pm:
                Left(word, "a.m. or p.m. stands alone, without a time before it");
                break;
            default:
                at--;
                return TakeDayWord(word, sense);
        }

        return true;
    }

    private void TakeProgramName(Word word)
    {
        if (Current is { Text.Length: 1 } name && name.Text[0] is >= 'a' and <= 'h')
        {
            OpenProgram(char.ToUpperInvariant(name.Text[0]), name);
            at++;
        }
        else if (Current is { } number && int.TryParse(number.Text, out int index) && index is >= 1 and <= 8)
        {
            char taken = Profile.LetterOf(index - 1);
            OpenProgram(taken, number);
            Doubted(number, $"program {taken}", "", "Programs carry letters here; the number was counted from A");
            at++;
        }
        else
        {
            Left(word, "which program is not said");
        }
    }

    private void OpenProgram(char opened, Word word)
    {
        letter = opened;
        section = Section.None;
        if (!programs.ContainsKey(opened))
        {
            programs[opened] = new ProgramNotes();
        }

        if (profile is not null && opened >= Profile.LetterOf(profile.Programs))
        {
            Doubted(word, $"program {opened}", "", profile.Programs == 1 ? "This controller has only 1 program" : Phrase.Of($"This controller has only {profile.Programs} programs"));
        }
    }

    private ProgramNotes Notes(Word word)
    {
        if (letter is null)
        {
            bool only = profile?.Programs == 1;
            OpenProgram('A', word);
            if (!only)
            {
                Doubted(word, "program A", "another program", "Which program it belongs to was not said");
            }
        }

        return programs[letter!.Value];
    }

    private void TakePercent(Word word)
    {
        SkipFillers();
        if (Current is { } number && int.TryParse(number.Text.TrimEnd('%'), out int value))
        {
            at++;
            SetPercent(value, number);
        }
        else
        {
            Left(word, "the percent itself is missing");
        }
    }

    private void SetPercent(int value, Word word)
    {
        percent = value;
        if (value is < 0 or > 400)
        {
            Doubted(word, $"{value} percent", "", "No controller goes that far");
        }
        else if (profile is not null && !profile.Percent.Settings().Contains(value) && value != 100)
        {
            PercentRange range = profile.Percent;
            int nearest = range.Settings().Append(100).MinBy(p => Math.Abs(p - value));
            Doubted(word, $"{value} percent", $"{nearest} percent", $"This controller shows {range.Least} to {range.Largest} in steps of {range.Step}");
        }
    }

    private void TakeName()
    {
        List<string> name = [];
        while (Current is { BeginsStatement: false } part)
        {
            name.Add(part.Typed);
            at++;
        }

        controller = name.Count > 0 ? string.Join(' ', name).Trim() : controller;
    }

    private void TakeHold(Word word)
    {
        SkipFillers();
        if (Current is { } next && int.TryParse(next.Text, out int days))
        {
            at++;
            if (Current is { } unit && Lexicon.SenseOf(unit.Text) == Sense.Days)
            {
                at++;
            }

            holdDays = days;
            if (days < 0 || days > Math.Max(profile?.LargestRainHoldDays ?? 0, 99))
            {
                Doubted(next, $"{days} days", "", "A rain hold is 0 to 99 days");
            }
        }
        else if (Current is { } none && Lexicon.SenseOf(none.Text) is Sense.Off or Sense.None)
        {
            at++;
            holdDays = 0;
        }
        else
        {
            Left(word, "for how many days is missing");
        }
    }

    private void TakeOn()
    {
        bool daysFollow = Current is { } next
            && (Lexicon.WeekdayOf(next.Text) is not null || Lexicon.SenseOf(next.Text) is Sense.Odd or Sense.Even or Sense.Every or Sense.Daily);
        if (daysFollow)
        {
            section = Section.Days;
        }
        else
        {
            off = false;
        }
    }

    private void TakeNothing(Word word, bool wholeController)
    {
        if (letter is null || (wholeController && word.BeginsStatement) || (section == Section.None && wholeController))
        {
            if (wholeController)
            {
                off = true;
            }
            else
            {
                Left(word, "what there is none of was not said");
            }

            return;
        }

        ProgramNotes notes = programs[letter.Value];
        switch (section)
        {
            case Section.Starts:
                notes.Starts ??= [];
                break;
            case Section.Days:
                notes.Days = ReadDays.None;
                break;
            case Section.Stations or Section.RunList:
                notes.Runs ??= [];
                break;
            default:
                notes.Starts ??= [];
                notes.Runs ??= [];
                notes.Days ??= ReadDays.None;
                break;
        }
    }

    private void SkipFillers()
    {
        while (Current is { BeginsStatement: false } word && Lexicon.SenseOf(word.Text) == Sense.Filler)
        {
            at++;
        }
    }

    private void NotUnderstood(Word word) =>
        doubts.Add(Doubt.Of(word.Line, word.Column, word.Typed, "", NearestWord.To(word.Text, Lexicon.Known) ?? "", $"Not understood; left out{Broken(word)}"));

    private void Left(Word word, Phrase why) => doubts.Add(Doubt.Of(word.Line, word.Column, word.Typed, "", "", $"Left out: {why}{Broken(word)}"));

    /// <summary>A list with a hole in it is no list: what is missing could be blamed on the controller.</summary>
    private Phrase Broken(Word word)
    {
        if (letter is not { } program || !programs.TryGetValue(program, out ProgramNotes? notes))
        {
            return "";
        }

        if (section == Section.Starts && word.Text.Any(char.IsAsciiDigit))
        {
            notes.StartsAreBroken = true;
            return Phrase.Of($", and with it the start times of program {program}, which are not whole");
        }

        if (section == Section.Days && word.Text.Length <= LongestDayClump)
        {
            notes.DaysAreBroken = true;
            return Phrase.Of($", and with it the water days of program {program}, which are not whole");
        }

        return "";
    }

    private void Doubted(Word word, Phrase taken, Phrase otherwise, Phrase why) => doubts.Add(Doubt.Of(word.Line, word.Column, word.Typed, taken, otherwise, why));
}
