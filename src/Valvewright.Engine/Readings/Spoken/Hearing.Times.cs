using NodaTime;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>How clearly words are a time of day.</summary>
internal enum TimeForm
{
    /// <summary>"5".</summary>
    Bare,

    /// <summary>"7 30", "0730".</summary>
    Digits,

    /// <summary>"7:30".</summary>
    Clock,

    /// <summary>"7 am", "half past seven", "noon".</summary>
    Spoken,
}

/// <summary>A time of day heard.</summary>
/// <param name="Introduced">Whether "at" or "a las" stood before it.</param>
internal sealed record HeardTime(LocalTime Time, int End, TimeForm Form, bool Introduced, Question? Asks);

internal sealed partial class Hearing
{
    /// <summary>Every way to hear a time of day here, the longest first.</summary>
    public IEnumerable<HeardTime> Times(int at)
    {
        int from = at;
        while (from - at < 2 && IsText(from, "at", "a", "las", "la", "al", "the", "@", "los") && !IsLetter(from))
        {
            from++;
        }

        bool introduced = from > at && !IsText(at, "the", "los") && !(from == at + 1 && IsText(at, "la"));
        foreach ((int hour, int minute, int end, TimeForm form) in Cores(from).OrderByDescending(c => c.End))
        {
            // "la una", "las dos": "la dos" is a station.
            if (from > at && hour != 1 && form != TimeForm.Clock && IsText(from - 1, "la"))
            {
                continue;
            }

            (string half, int after) = HalfAt(end);
            if (hour < 24 && minute < 60)
            {
                yield return Settled(Tokens[from], hour, minute, half, after, form, introduced);
            }
            else if (hour == 24 && minute == 0 && half.Length == 0)
            {
                yield return new HeardTime(LocalTime.Midnight, after, form, introduced,
                    new Question("00:00", "", "24:00 belongs to the day after; taken as midnight at the start of the watering day"));
            }
        }
    }

    private IEnumerable<(int Hour, int Minute, int End, TimeForm Form)> Cores(int at)
    {
        if (Is(at, Sense.Noon) || Is(at, Sense.Midnight))
        {
            yield return (Is(at, Sense.Noon) ? 12 : 0, 0, at + 1, TimeForm.Spoken);
        }

        if (this[at] is { Kind: TokenKind.Number } digits && digits.Number >= 0)
        {
            if (this[at + 1] is { Glued: true, Text: ":" or "." or "h" or "'" }
                && this[at + 2] is { Glued: true, Kind: TokenKind.Number, Text.Length: 2 } minutes && digits.Text.Length <= 2)
            {
                bool seconds = IsGlued(at + 3, ":") && this[at + 4]?.Text == "00";
                yield return (digits.Number, minutes.Number, at + (seconds ? 5 : 3), TimeForm.Clock);
            }

            if (digits.Text.Length is 3 or 4)
            {
                yield return (digits.Number / 100, digits.Number % 100, at + 1, TimeForm.Digits);
            }
        }

        if (Number(at) is not { } first)
        {
            if (Is(at, Sense.Half) && Is(at + 1, Sense.Past) && Number(at + 2) is { } halfPast)
            {
                yield return (halfPast.Value, 30, halfPast.End, TimeForm.Spoken);
            }

            if (IsText(at, "quarter", "cuarto") && From(at + 1, 15) is { } quarter)
            {
                yield return quarter;
            }

            yield break;
        }

        if (first.Value is >= 100 and < 2400 && Tokens[at].Kind == TokenKind.Word)
        {
            yield return (first.Value / 100, first.Value % 100, first.End, TimeForm.Digits);
        }

        int minuteWord = Is(first.End, Sense.Minute) ? first.End + 1 : first.End;
        if (first.Value is > 0 and < 60 && From(minuteWord, first.Value) is { } from)
        {
            yield return from;
        }

        if (first.Value > 24)
        {
            yield break;
        }

        if (Is(first.End, Sense.Oclock) || (IsText(first.End, "en") && IsText(first.End + 1, "punto")))
        {
            yield return (first.Value, 0, first.End + (Is(first.End, Sense.Oclock) ? 1 : 2), TimeForm.Bare);
        }

        int zero = IsText(first.End, "oh", "o") ? 1 : 0;
        if (Number(first.End + zero) is { Value: < 60 } minute && Tokens[first.End + zero] is { Glued: false } second
            && (second.Kind == TokenKind.Word || second.Text.Length == 2)
            && (second.Kind == Tokens[at].Kind || second.Text.Length == 2)
                && (zero == 0 ? minute.Value >= 10 || second.Text is "00" || second.Text[0] == '0' : minute.Value is > 0 and < 10))
        {
            yield return (first.Value, minute.Value, minute.End, TimeForm.Digits);
        }

        if (IsText(first.End, "y", "menos") && (Is(first.End + 1, Sense.Half) ? (30, first.End + 2) : IsText(first.End + 1, "cuarto")
            ? (15, first.End + 2) : Number(first.End + 1)) is ( > 0 and < 60 and var part, var end) && !Is(end, Sense.Minute))
        {
            bool less = IsText(first.End, "menos");
            yield return (less ? (first.Value + 23) % 24 : first.Value, less ? 60 - part : part, end, TimeForm.Spoken);
        }

        if (Is(first.End, Sense.Hour) && first.Value >= 13)
        {
            yield return (first.Value, 0, first.End + 1, TimeForm.Clock);
        }

        yield return (first.Value, 0, first.End, TimeForm.Bare);

        (int, int, int, TimeForm)? From(int word, int minutes)
        {
            bool before = IsText(word, "to", "before", "till", "para", "of"), past = Is(word, Sense.Past);
            int hourAt = IsText(word + 1, "las", "la") ? word + 2 : word + 1;
            return (before || past) && Number(hourAt) is { Value: > 0 and < 24 } hour && !Is(hour.End, Sense.Station)
                ? (past ? hour.Value : (hour.Value + 23) % 24, past ? minutes : 60 - minutes, hour.End, TimeForm.Spoken)
                : null;
        }
    }

    /// <summary>"am", "in the evening", "de la noche": a for the morning, p, n for night; and where it ends.</summary>
    private (string Half, int End) HalfAt(int end)
    {
        if (this[end] is { Glued: true, Text: "a" or "p" } letter)
        {
            return (letter.Text, end + 1);
        }

        int at = end;
        while (at - end < 3 && IsText(at, "in", "the", "at", "de", "la", "por", "this", "of", "en", "o'clock"))
        {
            at++;
        }

        return this[at] switch
        {
            { Text: "am" or "pm" } half => (half.Text[..1], at + 1),
            { Text.Length: > 2 } word when word.Is(Sense.Am) => ("a", at + 1),
            { Text.Length: > 2 } word when word.Is(Sense.Pm) => ("p", at + 1),
            { } word when word.Is(Sense.Night) => ("n", at + 1),
            _ => ("", end),
        };
    }

    private HeardTime Settled(Token typed, int hour, int minute, string half, int end, TimeForm form, bool introduced)
    {
        LocalTime taken = new(hour, minute);
        if (half.Length > 0)
        {
            bool afternoon = half == "p" || (half == "n" && hour is >= 5 and < 12);
            bool fits = afternoon ? hour >= 12 : half == "n" ? hour is >= 18 or < 5 : hour < 12;
            return hour is 0 or > 12
                ? new HeardTime(taken, end, TimeForm.Spoken, introduced,
                    fits ? null : new Question($"{taken:HH:mm}", "", "An hour of 0 or above 12 has no am or pm"))
                : new HeardTime(new LocalTime((hour % 12) + (afternoon ? 12 : 0), minute), end, TimeForm.Spoken, introduced, null);
        }

        bool named = typed.Is(Sense.Noon) || typed.Is(Sense.Midnight);
        bool couldBeEither = !named && hour is >= 1 and <= 12 && !(typed.Kind == TokenKind.Number && typed.Text[0] == '0');
        if (couldBeEither && TwelveHours)
        {
            LocalTime morning = new(hour % 12, minute);
            return new HeardTime(morning, end, form, introduced,
                new Question($"{morning:HH:mm}", $"{morning.PlusHours(12):HH:mm}", "am or pm was not given"));
        }

        // No one reads "half past seven" off a display of 24 hours; anyone who says so may mean the evening.
        bool loose = form is TimeForm.Bare or TimeForm.Spoken || !StyleIsKnown;
        return new HeardTime(taken, end, form, introduced, couldBeEither && loose
            ? new Question($"{taken:HH:mm}", hour == 12 ? "00:00" : $"{taken.PlusHours(12):HH:mm}", "Taken as a 24-hour time")
            : null);
    }
}
