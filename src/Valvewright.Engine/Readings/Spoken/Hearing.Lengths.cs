namespace Valvewright.Engine.Readings.Spoken;

/// <summary>A run time heard.</summary>
/// <param name="HasUnit">Whether minutes, hours or seconds were said; a bare number is minutes.</param>
internal sealed record HeardLength(int Seconds, int End, bool HasUnit, double Cost, Question? Asks);

internal sealed partial class Hearing
{
    private const int Minute = 60;
    private const int Hour = 3600;

    /// <summary>Every way to hear a run time here, the longest first.</summary>
    public IEnumerable<HeardLength> Lengths(int at) => Spans(at).OrderByDescending(s => s.End);

    private IEnumerable<HeardLength> Spans(int at)
    {
        int from = IsText(at, "a", "an", "un", "una") && (Is(at + 1, Sense.Half) || Is(at + 1, Sense.Quarter)) ? at + 1 : at;
        if (FractionOfHour(from) is { } fraction)
        {
            yield return fraction;
        }

        if (this[at] is { Kind: TokenKind.Number } big && IsGlued(at + 1, ":") && this[at + 2] is
            { Glued: true, Kind: TokenKind.Number, Text.Length: 2 } small && small.Number < 60 && big.Number is >= 0 and < 100)
        {
            bool fine = Profile is { RunTimeStepSeconds: < Minute };
            int hoursMinutes = (big.Number * Hour) + (small.Number * Minute), minutesSeconds = (big.Number * Minute) + small.Number;
            Question? asks = fine || (Profile is null && big.Number > 4)
                ? new Question(Length(fine ? minutesSeconds : hoursMinutes), Length(fine ? hoursMinutes : minutesSeconds),
                    "Hours and minutes, or minutes and seconds")
                : null;
            yield return new HeardLength(fine ? minutesSeconds : hoursMinutes, at + 3, true, 0, asks);
        }

        bool anHour = (IsText(at, "an", "a", "una", "la") && Is(at + 1, Sense.Hour))
            || (IsText(at, "hour", "hora") && IsText(at + 1, "and", "y"));
        (int Value, int End)? number = anHour ? (1, Is(at, Sense.Hour) ? at : at + 1) : Number(at);
        if (number is not { Value: <= 1440 } n)
        {
            yield break;
        }

        int unit = IsGlued(n.End, "-") ? n.End + 1 : n.End;
        if (anHour || (Is(unit, Sense.Hour) && !IsText(unit, "hora") | n.Value == 1))
        {
            int end = unit + 1, joined = IsText(end, "and", "y", "con") ? end + 1 : end;
            yield return new HeardLength(n.Value * Hour, end, true, 0, null);
            if (Is(Articled(joined), Sense.Half))
            {
                yield return new HeardLength((n.Value * Hour) + (Hour / 2), Articled(joined) + 1, true, 0, null);
            }
            else if (IsText(Articled(joined), "quarter", "cuarto"))
            {
                yield return new HeardLength((n.Value * Hour) + (Hour / 4), Articled(joined) + 1, true, 0, null);
            }
            else if (Number(joined) is { Value: < 60 } minutes)
            {
                bool said = Is(minutes.End, Sense.Minute);
                yield return new HeardLength(
                    (n.Value * Hour) + (minutes.Value * Minute), minutes.End + (said ? 1 : 0), true, said || joined == end ? 0 : 0.4, null);
            }
        }
        else if (Is(unit, Sense.Minute))
        {
            int end = unit + 1, joined = IsText(end, "and", "y", "con") ? end + 1 : end;
            yield return new HeardLength(n.Value * Minute, end, true, 0, null);
            if (joined > end && Is(Articled(joined), Sense.Half) && !Is(Articled(joined) + 1, Sense.Hour))
            {
                yield return new HeardLength((n.Value * Minute) + (Minute / 2), Articled(joined) + 1, true, 0, null);
            }
            else if (Number(joined) is { Value: < 60 } seconds && Is(seconds.End, Sense.Second))
            {
                yield return new HeardLength((n.Value * Minute) + seconds.Value, seconds.End + 1, true, 0, null);
            }
        }
        else if (Is(unit, Sense.Second))
        {
            yield return new HeardLength(n.Value, unit + 1, true, 0, null);
        }
        else if (IsText(n.End, "and") && IsText(n.End + 1, "a") && Is(n.End + 2, Sense.Half) && Is(n.End + 3, Sense.Minute))
        {
            yield return new HeardLength((n.Value * Minute) + (Minute / 2), n.End + 4, true, 0, null);
        }
        else if (IsGlued(n.End, ".") && this[n.End + 1] is { Glued: true, Text: "5" } && Is(n.End + 2, Sense.Minute))
        {
            yield return new HeardLength((n.Value * Minute) + (Minute / 2), n.End + 3, true, 0, null);
        }
        else
        {
            yield return new HeardLength(n.Value * Minute, n.End, false, 0, null);
        }

        int Articled(int word) => IsText(word, "a", "an", "un", "una") ? word + 1 : word;
    }

    /// <summary>"half an hour", "three quarters of an hour", "media hora", "tres cuartos de hora".</summary>
    private HeardLength? FractionOfHour(int at)
    {
        (int seconds, int next) = Is(at, Sense.Half) ? (Hour / 2, at + 1)
            : IsText(at, "quarter", "cuarto") ? (Hour / 4, at + 1)
            : Number(at) is { Value: 3 } three && IsText(three.End, "quarters", "cuartos") ? (3 * Hour / 4, three.End + 1)
            : (0, at);
        int end = next;
        while (end - next < 3 && IsText(end, "of", "an", "a", "de", "the"))
        {
            end++;
        }

        return seconds > 0 && Is(end, Sense.Hour) ? new HeardLength(seconds, end + 1, true, 0, null) : null;
    }

    /// <summary>A length of time in the short form of both languages.</summary>
    public static string Length(int seconds) =>
        seconds % Minute == 0 ? $"{seconds / Minute} min" : seconds < Minute ? $"{seconds} s"
            : $"{seconds / Minute} min {seconds % Minute} s";
}
