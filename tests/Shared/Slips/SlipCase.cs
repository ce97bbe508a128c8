using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Slips;

/// <summary>What was done wrong.</summary>
/// <param name="Kind">The kind that names it.</param>
/// <param name="Program">The program; null for the whole controller.</param>
/// <param name="Station">The station; 0 for all.</param>
internal readonly record struct Label(FindingKind Kind, char? Program = null, int Station = 0)
{
    /// <summary>Whether a finding names it.</summary>
    public bool IsNamedBy(Finding finding) =>
        finding.Kind == Kind && (Program is null || finding.Program is null || finding.Program == Program)
            && (Station == 0 || finding.Stations.Contains(Station));
}

/// <summary>A reading with labelled slips in it; none: a sound one. Without a plan it is to be judged by itself.</summary>
internal sealed record SlipCase(Site Site, SiteController Controller, Plan? Plan, LocalDateTime At, Reading Reading, ListOf<Label> Labels)
{
    public override string ToString() =>
        $"{Site.Name}, {Controller.Name}, {At:uuuu-MM-dd HH:mm}: {string.Join(" + ", Labels)}\n{ReadingWriter.Write(Reading)}";
}
