using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Ghcn;

/// <summary>
/// Finds the units of a GHCN-Daily table with one row a day. An order is in US units (degrees F, inches to 0.01, mph) or metric
/// (degrees C, mm and m/s to 0.1), one system for the whole order, and does not say which; a published station file is in tenths.
/// </summary>
internal static class GhcnUnits
{
    public static (IReadOnlyList<DayColumn>? Columns, WeatherLayout Layout) Settle(
        ReadingJob job, DelimitedText header, WeatherLayout layout)
    {
        var columns = GhcnRows.ColumnsOf(header);
        if (columns.Count == 0)
        {
            job.Problem(header.Line, 1, header.Whole, "columns such as TMAX, TMIN, PRCP",
                "the table holds none of the elements that are needed");
            return (null, layout);
        }

        ValueRanges ranges = ValueRanges.Of(header, [.. columns.Select(c => c.Field)]);
        bool decimals = columns.Exists(c => ranges[c.Field].Decimals > 0);
        bool asked = job.Options.Layout == WeatherLayout.GhcnAccessCsv;
        if (layout == WeatherLayout.GhcnAccessCsv && job.Options.Units is null && (asked || !decimals))
        {
            job.Found("Units: tenths of °C, of mm and of m/s, as the published station files have them (no value has a decimal point).");
            return ([.. columns.Select(c => new DayColumn(c.Field, c.Element, c.Quantity, c.Tenths, c.Flags))], layout);
        }

        UnitSystem? system = job.Options.Units ?? FromValues(job, header, columns, ranges);
        if (system is null)
        {
            return (null, WeatherLayout.GhcnOrderCsv);
        }

        if (job.Options.Units is not null)
        {
            job.Assumed($"Units as declared: {Words(system.Value)}.");
        }

        return (
            [.. columns.Select(c => new DayColumn(c.Field, c.Element, c.Quantity,
                Unit.UsualIn(system.Value, Quantities.DimensionOf(c.Quantity)) ?? c.Tenths, c.Flags))], WeatherLayout.GhcnOrderCsv);
    }

    private static Sentence Words(UnitSystem system) => system == UnitSystem.Metric ? "metric (°C, mm, m/s)" : "US (°F, inch, mph)";

    private static UnitSystem? FromValues(
        ReadingJob job, DelimitedText header, List<(int Field, string Element, Quantity Quantity, Unit Tenths, int? Flags)> columns,
            ValueRanges ranges)
    {
        List<Sentence> us = [];
        List<Sentence> metric = [];
        foreach (var column in columns)
        {
            ValueRange range = ranges[column.Field];
            if (range.Count == 0)
            {
                continue;
            }

            switch (Quantities.DimensionOf(column.Quantity))
            {
                case Dimension.Temperature when range.Highest > Plausible.HottestAirC:
                    us.Add($"{column.Element} reaches {range.Highest:0.#}, hotter in °C than any air on earth");
                    break;
                case Dimension.Temperature when range.Decimals > 0:
                    metric.Add($"{column.Element} is given to tenths, as metric orders are");
                    break;
                case Dimension.WaterDepth when range.Decimals >= 2:
                    us.Add($"{column.Element} is given to 0.01, as inches are");
                    break;
                case Dimension.WaterDepth when range.Decimals == 1:
                    metric.Add($"{column.Element} is given to 0.1, as mm are");
                    break;
            }
        }

        if ((us.Count == 0) == (metric.Count == 0))
        {
            job.Problem(
                header.Line, 0, us.Count == 0 ? "no sign of either" : $"{us[0]}; but {metric[0]}", "a declared unit system: metric or US",
                "the file does not state its units and its values do not tell them");
            return null;
        }

        UnitSystem system = us.Count > 0 ? UnitSystem.UsCustomary : UnitSystem.Metric;
        job.Warn($"The file does not state its units; {Words(system)} taken, because {
            Sentence.Together(us.Count > 0 ? us : metric, "; ")}.");
        return system;
    }
}
