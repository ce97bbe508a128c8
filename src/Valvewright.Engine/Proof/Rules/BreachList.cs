using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>Collects breaches; those of one kind at one place are one entry with a count, told by the worst of them.</summary>
internal sealed class BreachList
{
    private readonly Dictionary<(BreachKind Kind, string Where), Entry> entries = [];

    /// <summary>Adds one.</summary>
    /// <param name="kind">Which rule.</param>
    /// <param name="where">Controller, program, station.</param>
    /// <param name="what">What happens; the text that goes with the worst figure is kept.</param>
    /// <param name="at">When, in local time.</param>
    /// <param name="figure">How bad it is.</param>
    /// <param name="count">How many times.</param>
    public void Add(BreachKind kind, string where, Sentence what, LocalDateTime? at = null, BreachFigure? figure = null, int count = 1)
    {
        if (!entries.TryGetValue((kind, where), out Entry? entry))
        {
            entries.Add((kind, where), new Entry { What = what, First = at, Worst = figure, Count = count, Order = entries.Count });
            return;
        }

        entry.Count += count;
        entry.First = at is { } time && (entry.First is not { } first || time < first) ? time : entry.First;
        if (figure?.Found > entry.Worst?.Found)
        {
            (entry.Worst, entry.What) = (figure, what);
        }
    }

    /// <summary>All of them, by kind, then in the order found.</summary>
    public ListOf<Breach> ToListOf() => entries
        .OrderBy(e => e.Key.Kind)
        .ThenBy(e => e.Value.Order)
        .Select(e => new Breach(e.Key.Kind, e.Key.Where, e.Value.What, e.Value.Worst, e.Value.First, e.Value.Count))
        .ToListOf();

    private sealed class Entry
    {
        public required Sentence What { get; set; }

        public required LocalDateTime? First { get; set; }

        public required BreachFigure? Worst { get; set; }

        public required int Count { get; set; }

        public required int Order { get; init; }
    }
}
