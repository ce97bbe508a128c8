using Valvewright.App.Parts;
using Valvewright.App.Texts;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Proof;

/// <summary>A figure of a zone with where it came from.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">How much.</param>
/// <param name="Formula">How it was found.</param>
/// <param name="Inputs">What went into it.</param>
/// <param name="Source">Who published the formula.</param>
public sealed record ZoneFigure(string Name, string Value, string Formula, ListOf<WhenceInput> Inputs, string Source)
{
    /// <summary>All figures of a zone, means of the years replayed.</summary>
    public static ListOf<ZoneFigure> Of(ZoneProof zone, SiteWords say, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(words);
        ZoneFigure Figure(string name, string value, params WhenceInput[] inputs) =>
            new(words[$"proof.{name}"], value, words[$"proof.{name}.how"], inputs.ToListOf(), words[$"proof.{name}.source"]);
        WhenceInput Depth(string name, double mm) => new(words[$"proof.{name}"], say.LargeDepth(mm), false);

        WhenceInput demand = Depth("demand", zone.DemandMm), applied = Depth("applied", zone.AppliedMm);
        return
        [
            Figure("met", words.Share(zone.UseMet), demand),
            Figure("driest", words.Share(zone.DriestUseMet), demand),
            Figure("dry", words.Fill("proof.days", ("n", zone.LongestDryDays))),
            Figure("applied", say.LargeDepth(zone.AppliedMm)),
            Figure("least", say.LargeDepth(zone.MinimumMm), demand, Depth("rain", zone.RainMm)),
            Figure("auditor", say.LargeDepth(zone.AuditorMm), Depth("least", zone.MinimumMm)),
            Figure("ratio", SiteWords.Number(zone.WaterRatio, 2), applied, Depth("least", zone.MinimumMm)),
            Figure("excess", words.Share(zone.Excess), demand, applied),
            Figure("runoff", say.LargeDepth(zone.RunoffMm), applied),
            Figure("drainage", say.LargeDepth(zone.DrainageMm), applied, Depth("rainIn", zone.RainInMm)),
        ];
    }
}
