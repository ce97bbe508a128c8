using System.Globalization;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Text;

/// <summary>Counts values that were left out because they cannot be weather, and says so; too many of them are a problem.</summary>
internal sealed class Tally
{
    /// <summary>From this share on, not single readings are wrong but the unit or the column.</summary>
    private const double ShareThatMeansWrongUnit = 0.1;

    private readonly int[] seen = new int[Quantities.Count];
    private readonly int[] dropped = new int[Quantities.Count];
    private readonly (int Line, int Column, string Text)[] first = new (int, int, string)[Quantities.Count];

    public void Seen(Quantity quantity) => seen[(int)quantity]++;

    public void Drop(Quantity quantity, int line, int column, string text)
    {
        if (dropped[(int)quantity]++ == 0)
        {
            first[(int)quantity] = (line, column, text);
        }
    }

    /// <summary>The range of values that can be weather, in the column's own unit.</summary>
    public static Sentence Range(DayColumn column)
    {
        (double least, double most) = Plausible.Bounds(column.Quantity);
        double from = (least - column.Unit.Offset) / column.Unit.Factor;
        double to = (most - column.Unit.Offset) / column.Unit.Factor;
        return $"{from:0.#} to {to:0.#} {column.Unit.Word}";
    }

    public void Report(ReadingJob job)
    {
        foreach (Quantity quantity in Enum.GetValues<Quantity>())
        {
            int count = dropped[(int)quantity];
            (int line, int column, string text) = first[(int)quantity];
            Sentence title = Quantities.Title(quantity);
            (double least, double most) = Plausible.Bounds(quantity);
            if (count > Math.Max(1, seen[(int)quantity] * ShareThatMeansWrongUnit))
            {
                job.Problem(line, column, text, $"{least} to {most} as kept",
                    $"{count} of {seen[(int)quantity]} values cannot be {title}; is the unit or the column wrong?");
            }
            else if (count > 0)
            {
                job.Warn($"{count} values of {title} left out, because they cannot be weather (first on line {line}: {text}).");
            }
        }
    }
}
