using System.Text;
using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Faults;
using Valvewright.Files.Plans;
using Valvewright.Files.Problems;
using Valvewright.Files.Readings;
using Valvewright.Store;

namespace Valvewright.Cli.Commands.Trace;

/// <summary>A trace with everything that it rests on, read from files.</summary>
internal sealed partial class TraceWork
{
    private readonly TraceArguments given;

    public TraceWork(string path, TraceArguments given)
    {
        this.given = given;
        SiteFile file = SiteFile.Read(path);
        Site site = Site = file.Site;
        Model = ReadModel(given.Model);
        if (given.Records is { } folder)
        {
            string[] confirmed = [.. Kept(folder).Select(t => t.Confirmed).OfType<string>()];
            Learned = confirmed.Count(c => Model.CauseNamed(c) is not null);
            Model = Model.LearnedFrom(confirmed);
        }

        Said = new TraceSaid(Model, site, given.Language);
        TraceCase? kept = given.State is { } state && File.Exists(state) ? TraceFiles.Read(state) switch
            { { Trace: { } read } => read, var wrong => throw new ProblemsException(wrong.Problems) } : null;
        string? name = given.Controller ?? kept?.Controller;
        Controller = new CheckArguments(null, name, given.Plan, false, null, given.Language, null).ChooseController(file, null);
        Now = given.At ?? file.Now;
        (_, SavedPlan? saved) = new CheckArguments(null, null, given.Plan, false, null, given.Language, null).FindPlan(file);
        Plan = saved?.Plan;
        Trace = kept ?? Begin();
        Require(file.Path);
        Tracer = new Tracer(Model, Trace.Facts);
    }

    public Site Site { get; }

    public FaultModel Model { get; }

    public TraceSaid Said { get; }

    public SiteController Controller { get; }

    public Engine.Plans.Plan? Plan { get; }

    public LocalDateTime Now { get; }

    public Tracer Tracer { get; }

    /// <summary>Confirmed cases that the weights rest on.</summary>
    public int Learned { get; }

    public TraceCase Trace { get; private set; }

    public TraceView View => Tracer.Look(Trace);

    /// <summary>The next run to verify by.</summary>
    public DueRun? NextRun => SettingsEvidence.NextRun(Site, Controller, Plan, Trace.Station, Now);

    public static FaultModel ReadModel(string? path) => path is null
        ? FaultModelFiles.Shipped
        : FaultModelFiles.ReadFile(path) is { Model: { } model } ? model
            : throw new ProblemsException(FaultModelFiles.ReadFile(path).Problems);

    /// <summary>Takes an answer, or anything else that changes the trace, and keeps it where a file was named.</summary>
    public void Change(TraceCase changed)
    {
        Trace = changed;
        if (given.State is { } state)
        {
            new WholeFiles(Path.GetDirectoryName(Path.GetFullPath(state))!).Add(Path.GetFileName(state), TraceFiles.Write(changed)).Write();
        }
    }

    /// <summary>An answer in words, as <c>click: none</c>.</summary>
    public TraceAnswer Answer(string text, string source, int line)
    {
        int colon = text.IndexOf(':', StringComparison.Ordinal);
        string name = (colon < 0 ? text : text[..colon]).Trim(), said = colon < 0 ? "" : text[(colon + 1)..].Trim();
        TraceStep step = Model.StepNamed(name)
            ?? throw Wrong(source, line, name, Model.Steps.Select(s => s.Name), "the model has no such step");
        return Answer(step, said)
            ?? throw Wrong(source, line, said, [.. step.Answers.Select(a => a.Name), "unknown", "cannot"], $"not an answer to '{name}'");
    }

    /// <summary>An answer to a step; null where it is none.</summary>
    public TraceAnswer? Answer(TraceStep step, string said)
    {
        TraceAnswer blank = new(step.Name, By: given.By, At: Now);
        if (said.ToLowerInvariant() is "?" or "unknown" or "don't know" or "no se" or "no sé")
        {
            return blank;
        }

        if (said.ToLowerInvariant() is "-" or "cannot" or "can't" or "no se puede")
        {
            return blank with { CannotDo = true };
        }

        if (step.Measured is { } quantity && Said.ReadValue(quantity, said) is { } value)
        {
            return blank with { Value = value };
        }

        StepAnswer? answer = step.Answers.FirstOrDefault(a => string.Equals(a.Name, said, StringComparison.OrdinalIgnoreCase)
            || string.Equals(a.Text.In(Said.Spoken), said, StringComparison.OrdinalIgnoreCase));
        answer ??= step.Measured is null && int.TryParse(said, out int number) && number >= 1 && number <= step.Answers.Count
            ? step.Answers[number - 1] : null;
        return answer is null ? null : blank with { Answer = answer.Name };
    }

    /// <summary>The complaint that a sentence means; null where it means none.</summary>
    public static Complaint? ComplaintIn(FaultModel model, string text)
    {
        string plain = text.Trim().ToLowerInvariant();
        return model.Complaints.FirstOrDefault(
            c => c.Name == plain || string.Equals(c.Text.English, plain, StringComparison.OrdinalIgnoreCase)
                || string.Equals(c.Text.Spanish, plain, StringComparison.OrdinalIgnoreCase))
            ?? model.Complaints.SelectMany(c => c.Says.Append(c.Name).Select(says => (Complaint: c, Says: says)))
                .Where(p => plain.Contains(p.Says, StringComparison.Ordinal)).OrderByDescending(p => p.Says.Length).Select(p => p.Complaint)
                    .FirstOrDefault();
    }

    private TraceCase Begin()
    {
        string text = given.Complaint ?? throw new ProblemsException(new Problem(
            "--complaint", 0, 0, "", string.Join(", ", Model.Complaints.Select(c => c.Name)), null,
                "the complaint is missing"));
        Complaint complaint = ComplaintIn(Model, text)
            ?? throw Wrong("--complaint", 0, text, Model.Complaints.Select(c => c.Name), "not a complaint that the model knows");
        int? station = given.Station ?? (StationIn().Match(text) is { Success: true } said
            ? int.Parse(said.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture) : null);
        TraceFacts facts = TraceFacts.Of(Site, Controller, station);
        TraceCase trace = new()
        {
            Site = Site.Name, Controller = Controller.Name, Station = station, Complaint = complaint.Name, Began = Now,
                OnPhone = given.Phone,
            Facts = facts with
            {
                IsAtRoad = given.Road, IsReclaimed = given.Reclaimed || facts.IsReclaimed, IsDosed = given.Dosed,
                CoilOhms = given.CoilOhms ?? facts.CoilOhms, WireM = given.WireM ?? facts.WireM, Cells = given.Cells ?? facts.Cells,
            },
        };
        return Evidence(trace).Aggregate(trace, (sofar, answer) => sofar.With(answer with { At = Now }));
    }

    private IEnumerable<TraceAnswer> Evidence(TraceCase trace)
    {
        IEnumerable<TraceAnswer> known = SettingsEvidence.OfPlan(Model, Site, Controller, Plan, trace.Station, Now);
        if (given.Reading is { } path)
        {
            ReadingFile file = ReadingFiles.Read(path, Controller.Profile, Site.Clock);
            Engine.Readings.ReadText text = file.Text ?? throw new ProblemsException(file.Problems);
            CheckResult check = Check.Of(Site, Controller, Plan, text.Reading, new CheckContext(text.Reading.ReadAt ?? Now));
            known = known.Concat(SettingsEvidence.Of(Model, trace.Complaint, trace.Station, text.Reading, check));
        }

        return known;
    }

    private void Require(string file)
    {
        if (Trace.Station is { } station && Controller.Zones.All(z => z.Station != station))
        {
            throw new ProblemsException(new Problem(
                file, 0, 0, $"station {station}", $"one of: {string.Join(", ", Controller.Zones.Select(z => z.Station))}", null,
                    "the survey has no zone at that station"));
        }

        foreach (string need in given.Without.Where(n => Model.Needs.All(m => m.Name != n)))
        {
            throw Wrong("--without", 0, need, Model.Needs.Select(n => n.Name), "the model has no such need");
        }

        if (given.CoilOhms is <= 0 or > 1000 || given.WireM is < 0 or > 5000 || given.Cells is < 1 or > 24)
        {
            throw new ProblemsException(
                new Problem("--coil-ohms, --wire-m, --cells", 0, 0, "", "ohms to 1000, m to 5000, 1 to 24 cells", null,
                    "a value out of range"));
        }

        Trace = Trace with { OnPhone = Trace.OnPhone || given.Phone, Without = Trace.Without.Concat(given.Without).Distinct().ToListOf() };
        if (Model.ComplaintNamed(Trace.Complaint) is null)
        {
            throw Wrong(given.State ?? file, 0, Trace.Complaint, Model.Complaints.Select(c => c.Name), "the model has no such complaint");
        }
    }

    private static IEnumerable<TraceCase> Kept(string folder)
    {
        if (!Directory.Exists(folder) && Store.Files.StorePlace.Of(folder).Exists())
        {
            using SiteStore store = SiteStore.Open(folder);
            foreach (Records.TraceValue trace in store.Everywhere<Records.TraceValue>().Select(t => t.Value)) yield return trace.Trace;
            yield break;
        }

        if (!Directory.Exists(folder))
        {
            throw new ProblemsException(
                new Problem(folder, 0, 0, "no such folder", "a folder of kept traces, or a store", null, "there are no records here"));
        }

        foreach (string file in Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal))
        {
            yield return TraceFiles.Read(file) switch
                { { Trace: { } trace } => trace, var wrong => throw new ProblemsException(wrong.Problems) };
        }
    }

    private static ProblemsException Wrong(string source, int line, string found, IEnumerable<string> words, string message) =>
        new(new Problem(source, line, 0, Printable.Of(found), $"one of: {string.Join(", ", words)}",
            NearestWord.To(found, [.. words]), message));

    [GeneratedRegex(@"\b(?:station|zone|estaci[oó]n|zona)\s*#?\s*([0-9]{1,2})\b", RegexOptions.IgnoreCase)]
    private static partial Regex StationIn();
}
