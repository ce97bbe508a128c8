using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>
/// Settles the units of a plain CSV's columns: what the header says; else what the person says; else what the values themselves rule
/// in or out, with a warning; else it is a problem. Never a silent guess.
/// </summary>
internal static class PlainUnits
{
    /// <summary>A record this long has seen a summer: one that never passes 56.7 is then in degrees C.</summary>
    private const int DaysThatShowASummer = 300;

    /// <summary>No weather station's mean wind comes near this, m/s (common practice); larger means are in km/h or mph.</summary>
    private const double HighestMeanWindMs = 10;

    public static IReadOnlyList<DayColumn> Settle(ReadingJob job, DelimitedText header, List<HeaderColumn> found)
    {
        List<HeaderColumn> open = found
            .FindAll(c => c.Unit is null && Quantities.DimensionOf(c.Quantity) is not (Dimension.Percent or Dimension.Duration));
        UnitSystem? system = job.Options.Units;
        if (open.Count > 0 && system is null)
        {
            system = FromValues(job, header, found, open);
        }

        List<DayColumn> columns = [];
        foreach (HeaderColumn column in found)
        {
            Unit? unit = column.Unit ?? Default(column.Quantity, system);
            if (unit is not null)
            {
                columns.Add(new DayColumn(column.Field, column.Name, column.Quantity, unit));
            }
            else if (!job.HasProblems || system is not null)
            {
                Undeclared(job, column);
            }
        }

        if (open.Count > 0 && job.Options.Units is not null && !job.HasProblems)
        {
            job.Assumed($"Units as declared: {Listed(columns, open)}.");
        }
        else if (open.Count > 0 && !job.HasProblems)
        {
            job.Warn($"The header gives no units; the values fit {Listed(columns, open)}, which are taken. Declare the units to be sure.");
        }

        return columns;
    }

    private static Sentence Listed(List<DayColumn> columns, List<HeaderColumn> open) =>
        Sentence.Together(columns.Where(c => open.Exists(o => o.Field == c.Field))
            .Select(c => (Sentence)$"{c.Name} in {c.Unit.Word}"), ", ");

    private static Unit? Default(Quantity quantity, UnitSystem? system) => Quantities.DimensionOf(quantity) switch
    {
        Dimension.Percent => Unit.PerCent,
        Dimension.Duration => Unit.Hour,
        Dimension dimension => system is { } known ? Unit.UsualIn(known, dimension) : null,
    };

    private static void Undeclared(ReadingJob job, HeaderColumn column)
    {
        string choices = Unit.ChoicesFor(Quantities.DimensionOf(column.Quantity));
        job.Problem(column.Line, column.Position, column.Name,
            $"its unit, as in \"{column.Name} [{choices.Split(", ")[0]}]\" (one of {choices})", "the column's unit is not stated");
    }

    private static UnitSystem? FromValues(ReadingJob job, DelimitedText header, List<HeaderColumn> found, List<HeaderColumn> open)
    {
        ValueRanges ranges = ValueRanges.Of(header, [.. open.Select(c => c.Field)]);
        List<HeaderColumn> temperatures = open.FindAll(c => c.Quantity is Quantity.TmaxC or Quantity.TminC);
        HeaderColumn? stated = found.Find(c => c.Quantity == Quantity.TmaxC && c.Unit is not null);
        double highest = temperatures.Count == 0 ? double.NaN : temperatures.Max(c => ranges[c.Field].Highest);
        int days = temperatures.Count == 0 ? 0 : temperatures.Max(c => ranges[c.Field].Count);
        UnitSystem? system = stated is not null
            ? (stated.Unit == Unit.Fahrenheit ? UnitSystem.UsCustomary : UnitSystem.Metric)
            : highest > Plausible.HottestAirC ? UnitSystem.UsCustomary
            : days >= DaysThatShowASummer ? UnitSystem.Metric
            : null;
        if (system == UnitSystem.Metric && open.Find(c => c.Quantity == Quantity.WindMs) is { } wind
            && ranges[wind.Field].Mean > HighestMeanWindMs)
        {
            Undeclared(job, wind);
            return null;
        }

        return system;
    }
}
