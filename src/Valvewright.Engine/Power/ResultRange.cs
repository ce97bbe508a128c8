using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Power;

/// <summary>A figure that a result rests on, with how far it may be off.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">The figure.</param>
/// <param name="Off">How far it may be off either way, as a share of it.</param>
/// <param name="IsTypical">Whether it is a typical value and not the person's own.</param>
/// <param name="Source">Where it is from.</param>
public sealed record UncertainInput(Sentence Name, double Value, double Off, bool IsTypical, Sentence Source);

/// <summary>How much one input moves a result.</summary>
/// <param name="Input">The input.</param>
/// <param name="Low">The result with the input at its worse end.</param>
/// <param name="High">The result with the input at its better end.</param>
public sealed record InputEffect(UncertainInput Input, double Low, double High)
{
    /// <summary>The whole movement.</summary>
    public double Width => High - Low;
}

/// <summary>A result with the range that its inputs leave.</summary>
/// <remarks>
/// The range holds 95% of 2000 draws in which every input differs at once (normal, two standard deviations are how far it may be off), from
/// a fixed seed. The effects move one input at a time.
/// </remarks>
/// <param name="Value">The result at the inputs as given.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
/// <param name="Effects">The inputs, the one that matters most first.</param>
public sealed record ResultRange(double Value, double Low, double High, ListOf<InputEffect> Effects)
{
    private const int Draws = 2000;

    /// <summary>Whether a typical value is in use.</summary>
    public bool RestsOnTypicalValues => Effects.Any(e => e.Input.IsTypical);

    /// <summary>Evaluates a result over its inputs.</summary>
    /// <param name="inputs">The inputs.</param>
    /// <param name="result">The result for values in the inputs' order.</param>
    public static ResultRange Of(ListOf<UncertainInput> inputs, Func<double[], double> result)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        ArgumentNullException.ThrowIfNull(result);
        double[] values = [.. inputs.Select(i => i.Value)];
        double middle = result(values);
        List<InputEffect> effects = [];
        for (int i = 0; i < values.Length; i++)
        {
            double[] moved = [.. values];
            moved[i] = values[i] * (1 - inputs[i].Off);
            double one = result(moved);
            moved[i] = values[i] * (1 + inputs[i].Off);
            double other = result(moved);
            effects.Add(new InputEffect(inputs[i], Math.Min(middle, Math.Min(one, other)), Math.Max(middle, Math.Max(one, other))));
        }

        SeededDraws draws = new(1);
        double[] drawn = new double[Draws];
        for (int draw = 0; draw < Draws; draw++)
        {
            drawn[draw] = result([.. inputs.Select(i => i.Value * (1 + (i.Off * Math.Clamp(draws.Normal() / 2, -1, 1))))]);
        }

        Array.Sort(drawn);
        return new ResultRange(
            middle, Math.Min(middle, drawn[Draws / 40]), Math.Max(middle, drawn[Draws - 1 - (Draws / 40)]),
                effects.OrderByDescending(e => e.Width).ToListOf());
    }
}
