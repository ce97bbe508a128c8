using System.Text.Json;
using NodaTime;
using Valvewright.App.Texts;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Texts;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;

namespace Valvewright.App.Shelf;

/// <summary>A carried site with what pages ask of it most: its plans read, amounts and times in its units and the person's
/// language.</summary>
public sealed class OpenedSite
{
    /// <summary>Opens a carried site for pages.</summary>
    public OpenedSite(CarriedSite carried, PageWords words)
    {
        ArgumentNullException.ThrowIfNull(carried);
        ArgumentNullException.ThrowIfNull(words);
        Carried = carried;
        Say = new SiteWords(Site.Units, Site.Clock, words.Common);
    }

    /// <summary>As it lies on the device.</summary>
    public CarriedSite Carried { get; }

    /// <summary>Its id.</summary>
    public Guid Id => Carried.Id;

    /// <summary>The survey as understood.</summary>
    public Site Site => Carried.All.Site.Site;

    /// <summary>The survey on a date, with what its weather decides about plants: what the engine's sums take.</summary>
    public Site SiteOn(LocalDate date) => (Weather is { } weather ? Site.In(weather.Training()) : Site).AsOf(date);

    /// <summary>Its weather; null where there is none.</summary>
    public CarriedWeather? Weather => Carried.Weather;

    /// <summary>Amounts, dates and times.</summary>
    public SiteWords Say { get; }

    /// <summary>Its plans, the latest first.</summary>
    public ListOf<OpenedPlan> Plans => Carried.Plans;

    /// <summary>The plan that pages show when none is named: the latest that fits the survey, else the latest.</summary>
    public OpenedPlan? BestPlan => Plans.FirstOrDefault(p => p.View.FitsSurvey) ?? (Plans.Count > 0 ? Plans[0] : null);

    /// <summary>The plan of that id, or the one to show when none is named.</summary>
    public OpenedPlan? PlanOf(Guid? id) => id is { } named ? Plans.FirstOrDefault(p => p.View.Id == named) : BestPlan;
}

/// <summary>A plan of a carried site, read when first asked for.</summary>
/// <param name="view">As the server gave it, with or without its proof.</param>
/// <param name="proofText">The proof as JSON, where it does not stand in <paramref name="view"/>.</param>
public sealed class OpenedPlan(PlanView view, byte[]? proofText = null)
{
    private readonly Lazy<SavedPlan> saved = new(() => PlanFiles.Parse(view.Plan.GetRawText(), "plan") switch
    {
        { Saved: { } read } => read,
        var failed => throw new InvalidDataException(
            $"The plan's file cannot be read: {failed.Problems[0].Message} ({failed.Problems[0].Found})"),
    });
    private readonly Lazy<ProofReport?> proof =
        new(() => proofText is null ? view.Proof?.Deserialize<ProofReport>(PageJson.Options) : PageJson.Read<ProofReport?>(proofText));

    private readonly Lazy<PlanVerdict?> verdict =
        new(() => proofText is null ? PlanVerdict.Read(view.Proof?.GetRawText()) : PlanVerdict.Read(proofText.AsMemory()));

    /// <summary>As the server gave it; its proof may lie beside it.</summary>
    public PlanView View => view;

    /// <summary>Whether its proof is kept with it.</summary>
    public bool HasProof => proofText is null ? view.Proof is not null : !proofText.AsSpan().SequenceEqual("null"u8);

    /// <summary>The plan as saved.</summary>
    public SavedPlan Saved => saved.Value;

    /// <summary>What its proof comes to, read without the rest of it; null where there is none.</summary>
    public PlanVerdict? Verdict => verdict.Value;

    /// <summary>Its proof; null where there is none.</summary>
    public ProofReport? Proof => proof.Value;
}
