using Valvewright.Engine.Readings.Spoken;

namespace Valvewright.Engine.Readings.Rules;

/// <summary>Where an interpretation has got to: what decides how the next words can be understood.</summary>
/// <param name="HasProgram">Whether a program has been spoken of.</param>
/// <param name="Topic">What is being spoken of.</param>
internal readonly record struct Spot(bool HasProgram, Topic Topic);

/// <summary>
/// Every way to understand the words at a place. Each way has a cost: what fits what is being spoken of costs nothing, what is far-fetched
/// costs more; the interpretation with the least sum wins, and what comes near it is asked about (<see cref="Interpretation"/>).
/// </summary>
internal sealed partial class Grammar(Hearing hear)
{
    /// <summary>A small cost a step: fewer, longer steps explain more.</summary>
    private const double PerStep = 0.1;
    private const double PerCorrection = 0.7;
    private const double UnknownWord = 3;
    private const double IdleWord = 2;

    public IEnumerable<Step> Steps(int at, Spot spot) => Programs(at, spot).Concat(Starts(at, spot)).Concat(Runs(at, spot)).Concat(
        Days(at, spot)).Concat(Whole(at, spot)).Concat(Small(at, spot)).Select(WithCorrections).Select(s => WithoutProgram(s, spot));

    private static Step Make(int from, int end, double cost, Topic after, Said says, Question? asks = null) =>
        new(from, end, cost + PerStep, after, [says], asks is null ? [] : [asks]);

    private static Step Make(int from, int end, double cost, Topic after) => new(from, end, cost + PerStep, after, [], []);

    /// <summary>Words that say nothing, headings, and, as the last resort, leaving a word out.</summary>
    private IEnumerable<Step> Small(int at, Spot spot)
    {
        Token token = hear[at]!;
        if (token.IsPause)
        {
            yield return new Step(at, at + 1, 0, token.Kind == TokenKind.Break && token.Text == "\n" ? Topic.None : spot.Topic, [], []);
            yield break;
        }

        int correction = hear.IsText(at, "no") ? hear.SkipSmall(at + 1) : at;
        if (hear.Is(correction, Sense.Correction))
        {
            yield return Make(at, correction + 1, 0.2, spot.Topic, new TakesBack(), new Question("", "", "Something was taken back here"));
        }

        if (token.Is(Sense.Hedge))
        {
            yield return Make(at, at + 1, 0.2, spot.Topic, new Hedges());
        }

        bool isLetter = hear.IsLetter(at);
        if (token.Corrected is null && (token.Is(Sense.Filler) || token.Is(Sense.Article))
            && !Numerals.Knows(token.Text) | token.Text is "un" or "una" or "uno" or "one")
        {
            yield return new Step(at, at + 1, isLetter ? 0.6 : token.Text is "on" && hear.IsEnd(at + 1) ? 0.8
                : token.Text is "un" or "una" or "uno" or "one" ? 1.2 : 0.05, spot.Topic, [], []);
        }

        bool known = Lexicon.Knows(token.Text);
        yield return Make(at, at + 1, known || token.Kind == TokenKind.Sign ? IdleWord : UnknownWord, spot.Topic, new LeavesOut());
    }

    /// <summary>A setting of a program is less likely where none has been named.</summary>
    private static Step WithoutProgram(Step step, Spot spot) =>
        !spot.HasProgram && step.Says is [{ Part: ReadPart.StartTimes or ReadPart.RunTimes or ReadPart.WaterDays }, ..]
            ? step with { Cost = step.Cost + 0.4 } : step;

    /// <summary>A word that was taken for another one, and a hedge within a step, are asked about.</summary>
    private Step WithCorrections(Step step)
    {
        List<Question>? added = null;
        double cost = 0;
        if (step.Says is not [LeavesOut or Hedges or SaysController])
        {
            for (int i = step.From; i < step.End; i++)
            {
                if (hear[i]!.Corrected is { } word)
                {
                    (added ??= []).Add(new Question(word, "", "Not known as it was written; taken for the nearest word"));
                    cost += PerCorrection;
                }
                else if (hear.Is(i, Sense.Hedge) && !hear.IsText(i, "as") && step.Says is not [TakesBack])
                {
                    (added ??= []).Add(new Question("", "", "Said as uncertain"));
                }
            }
        }

        return added is null ? step : step with { Cost = step.Cost + cost, Asks = [.. step.Asks, .. added] };
    }
}
