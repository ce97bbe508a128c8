using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Editing;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Sites;
using Valvewright.Server.Visits;
using Valvewright.Store;

namespace Valvewright.Server.Fleets.Import;

/// <summary>
/// Sets a table of controllers beside the store (docs/api.md says which columns mean what). Empty cells and absent columns say nothing;
/// rows that are not there take nothing away; what is worked out from plans and surveys is not read.
/// </summary>
internal sealed class FleetReading
{
    private static readonly Sentence VisitNotes = "Imported from a table of controllers.";

    private readonly SiteStore store;
    private readonly Sheet sheet;
    private readonly Stamp stamp;
    private readonly Dictionary<Guid, FleetRow[]> known;
    private readonly List<TextProblem> problems = [];
    private readonly List<FleetChange> changes = [];
    private readonly List<Change> records = [];
    private readonly HashSet<int> changed = [];

    private FleetReading(SiteStore store, Sheet sheet, Stamp stamp, Func<Guid, bool> sees)
    {
        (this.store, this.sheet, this.stamp) = (store, sheet, stamp);
        known = FleetTable.Rows(store, stamp.At, sees).GroupBy(r => r.SiteId).ToDictionary(g => g.Key, g => g.ToArray());
    }

    /// <summary>What the table says that the store does not, and the changes to records that it comes to.</summary>
    public static (FleetImport Import, IReadOnlyList<Change> Records) Of(
        SiteStore store, Sheet sheet, Stamp stamp, Func<Guid, bool> sees)
    {
        FleetReading reading = new(store, sheet, stamp, sees);
        ListOf<SurveyDraft> drafts = reading.Read();
        ListOf<TextProblem> problems = reading.problems.OrderBy(p => p.Line).ThenBy(p => p.Column).Take(200).ToListOf();
        int untold = drafts.Sum(d => d.Rows.Count) + reading.problems.Select(p => p.Line).Distinct().Count();
        return (new FleetImport(
            false, sheet.Rows.Count, Math.Max(0, sheet.Rows.Count - reading.changed.Count - untold),
                reading.changes.OrderBy(c => c.Row).ToListOf(), drafts, problems), reading.records);
    }

    private ListOf<SurveyDraft> Read()
    {
        Dictionary<Guid, List<SheetRow>> ofSites = [];
        Dictionary<string, List<SheetRow>> unknown = new(StringComparer.Ordinal);
        foreach (SheetRow row in sheet.Rows)
        {
            (bool ok, Guid? site) = SiteOf(row);
            if (ok)
            {
                (site is { } id ? Rows(ofSites, id) : Rows(unknown, sheet.TextOf(row, "site"))).Add(row);
            }
        }

        foreach ((Guid id, List<SheetRow> rows) in ofSites)
        {
            Site(id, rows);
        }

        return unknown.Select(u => SurveyDrafts.Of(sheet, u.Key, u.Value, problems)).ToListOf();
    }

    private static List<SheetRow> Rows<T>(Dictionary<T, List<SheetRow>> of, T key)
        where T : notnull => of.TryGetValue(key, out List<SheetRow>? rows) ? rows : of[key] = [];

    /// <summary>The site that a row is about: by its id, else by its name; null for one that the store does not have.</summary>
    private (bool Ok, Guid? Site) SiteOf(SheetRow row)
    {
        string id = sheet.TextOf(row, "site_id"), name = sheet.TextOf(row, "site");
        if (id.Length > 0)
        {
            bool found = Ids.TryRead(id, out Guid site) && known.ContainsKey(site);
            if (!found)
            {
                problems.Add(sheet.Problem(row, "site_id", "the id of a site of this store; empty for another site",
                    NearestWord.To(id, known.Keys.Select(k => $"{k:D}")), "There is no site with this id"));
            }

            return (found, site);
        }

        Guid[] named = [.. known.Where(k => k.Value[0].Site == name).Select(k => k.Key)];
        if (name.Length == 0 || named.Length > 1)
        {
            Sentence why = name.Length == 0 ? "The row does not say of which site it is" : "Several sites have this name";
            problems.Add(sheet.Problem(
                row, name.Length == 0 ? "site" : "site_id", "the site's id, as the fleet's table has it", null, why));
            return (false, null);
        }

        return (true, named.Length == 1 ? named[0] : null);
    }

    private void Site(Guid id, List<SheetRow> rows)
    {
        Kept<SiteValue> kept = store.Site(id)!;
        Site? site = SurveyFiles.ParseApart(kept.Value.Survey, "survey").Site;
        if (site is null)
        {
            foreach (SheetRow row in rows.Where(r => sheet.TextOf(r, "controller").Length > 0))
            {
                problems.Add(sheet.Problem(row, "controller", "a survey that can be read", null, "Fix the survey of this site first"));
            }

            return;
        }

        string survey = Named(kept, site, rows, kept.Value.Survey);
        survey = Placed(kept, site, rows, survey);
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (SheetRow row in rows)
        {
            string name = sheet.TextOf(row, "controller");
            if (known[id].FirstOrDefault(r => r.Controller == name) is not { } stands)
            {
                problems.Add(sheet.Problem(row, "controller", string.Join(", ", site.Controllers.Select(c => c.Name)),
                    NearestWord.To(name, site.Controllers.Select(c => c.Name)), name.Length == 0
                        ? "The row does not say which controller it is about"
                            : "The site's survey has no such controller; a new one is added there"));
            }
            else if (!seen.Add(name))
            {
                problems.Add(sheet.Problem(row, "controller", "each controller once", null, "The controller has a row already"));
            }
            else
            {
                survey = Supplied(kept, site, row, stands, survey);
                Counted(row, stands);
                Visited(kept, row, stands);
            }
        }

        if (survey != kept.Value.Survey)
        {
            (SiteValue value, _, _) = SiteReading.Survey(survey);
            records.Insert(0, new Change(id, id, RecordKind.Site, value, kept.Version, stamp));
        }
    }

    private string Named(Kept<SiteValue> kept, Site site, List<SheetRow> rows, string survey)
    {
        SheetRow[] other = [.. rows.Where(r => sheet.TextOf(r, "site") is { Length: > 0 } name && name != site.Name)];
        if (other.Length == 0 || !AllSay(rows, other, "site"))
        {
            return survey;
        }

        string to = sheet.TextOf(other[0], "site");
        string? edited = to.Any(char.IsControl) || to.Length > 200 ? null : SurveyEdits.Renamed(survey, to);
        return Edited(edited, survey, other[0], "site",
            new FleetChange(other[0].Number, kept.Id, site.Name, null, FleetChangeKind.Name, site.Name, to), other);
    }

    private string Placed(Kept<SiteValue> kept, Site site, List<SheetRow> rows, string survey)
    {
        (SheetRow Row, double Latitude, double Longitude)[] places = [.. rows.Select(r =>
            (r, sheet.NumberOf(r, "latitude_deg", problems) ?? site.Place.LatitudeDeg,
                sheet.NumberOf(r, "longitude_deg", problems) ?? site.Place.LongitudeDeg))];
        var other = places.Where(p => (p.Latitude, p.Longitude) != (site.Place.LatitudeDeg, site.Place.LongitudeDeg)).ToArray();
        SheetRow[] otherRows = [.. other.Select(p => p.Row)];
        if (other.Length == 0 || !AllSay(rows, otherRows, "latitude_deg") || !AllSay(rows, otherRows, "longitude_deg"))
        {
            return survey;
        }

        (SheetRow row, double latitude, double longitude) = other[0];
        return Edited(SurveyEdits.Moved(survey, latitude, longitude), survey, row, "latitude_deg", new FleetChange(
            row.Number, kept.Id, site.Name, null, FleetChangeKind.Place, PlaceText(site.Place.LatitudeDeg, site.Place.LongitudeDeg),
                PlaceText(latitude, longitude)), otherRows);
    }

    /// <summary>What is of the whole site stands in every row of it: where only some of them were changed, no one can know which are
    /// meant.</summary>
    private bool AllSay(List<SheetRow> rows, SheetRow[] other, string heading)
    {
        string said = sheet.TextOf(other[0], heading);
        SheetRow? against = rows.FirstOrDefault(r => sheet.TextOf(r, heading) is { Length: > 0 } text && text != said);
        if (against is not null)
        {
            problems.Add(sheet.Problem(against, heading, "the same in all rows of the site", null,
                $"The rows of one site say different things: {Problems.Shown.Of(said)} in row {other[0].Number}"));
        }

        return against is null;
    }

    private string Supplied(Kept<SiteValue> kept, Site site, SheetRow row, FleetRow stands, string survey)
    {
        string to = sheet.TextOf(row, "supply");
        if (to.Length == 0 || to == stands.Supply)
        {
            return survey;
        }

        string[] supplies = [.. site.Supplies.Select(s => s.Name)];
        if (!supplies.Contains(to))
        {
            problems.Add(sheet.Problem(
                row, "supply", string.Join(", ", supplies), NearestWord.To(to, supplies), "The site's survey has no such supply"));
            return survey;
        }

        return Edited(SurveyEdits.Supplied(survey, stands.Controller!, to), survey, row, "supply",
            new FleetChange(row.Number, kept.Id, site.Name, stands.Controller, FleetChangeKind.Supply, stands.Supply!, to), [row]);
    }

    private string Edited(string? edited, string survey, SheetRow row, string heading, FleetChange change, SheetRow[] rows)
    {
        if (edited is null)
        {
            problems.Add(sheet.Problem(
                row, heading, change.From, null, "The survey cannot be changed so from a table; change it in the survey"));
            return survey;
        }

        changes.Add(change);
        changed.UnionWith(rows.Select(r => r.Number));
        return edited;
    }

    /// <summary>Numbers of stations and zones follow from the profile and the zones of the survey.</summary>
    private void Counted(SheetRow row, FleetRow stands)
    {
        foreach ((string heading, int? count) in new[] { ("stations", stands.Stations), ("zones", stands.Zones) })
        {
            if (sheet.NumberOf(row, heading, problems) is { } number && number != count)
            {
                problems.Add(sheet.Problem(row, heading, $"{count}, as the survey has it", null,
                    "How many there are is changed in the survey, where it says what they are"));
            }
        }
    }

    /// <summary>A later date than that of the last visit is a visit; battery and meter are of that visit where they differ from what is
    /// known.</summary>
    private void Visited(Kept<SiteValue> kept, SheetRow row, FleetRow stands)
    {
        int before = problems.Count;
        LocalDate? date = sheet.DateOf(row, "last_visit", problems);
        double? volts = Other(sheet.NumberOf(row, "battery_v", problems), stands.BatteryVolts),
            meter = Other(sheet.NumberOf(row, "meter_m3", problems), stands.MeterM3);
        if (problems.Count > before || (date is null || date == stands.LastVisit) && volts is null && meter is null)
        {
            return;
        }

        LocalDate today = stamp.At.InUtc().Date.PlusDays(1);
        if (date is not { } day || (stands.LastVisit is { } last && day <= last) || day > today || day.Year < 1950)
        {
            Sentence found = "the date on which this was found",
                after = $"a date after {FleetTable.Text(stands.LastVisit)}, the last visit that is known";
            problems.Add(sheet.Problem(row, "last_visit", $"{(stands.LastVisit is null ? found : after)}, and not in the future", null,
                date is null || date == stands.LastVisit ? "Battery and meter belong to a visit, and the row does not say to which"
                    : "There cannot have been a visit on this date"));
            return;
        }

        VisitValue visit = new(
            stands.Controller!, day.At(LocalTime.Noon), "", "", volts, [], meter, Sentences.Say(VisitNotes, sheet.Told.Language));
        try
        {
            RecordRules.Require(visit);
        }
        catch (Problems.Refusal)
        {
            problems.Add(sheet.Problem(
                row, volts is null ? "meter_m3" : "battery_v", "what can have been measured", null, "This cannot have been measured"));
            return;
        }

        records.Add(new Change(kept.Id, Ids.New(), RecordKind.Visit, visit, null, stamp));
        changed.Add(row.Number);
        changes.Add(new FleetChange(row.Number, kept.Id, stands.Site, stands.Controller, FleetChangeKind.Visit,
            FleetTable.Text(stands.LastVisit), VisitText(visit)));
    }

    private static double? Other(double? said, double? stands) => said == stands ? null : said;

    private static string PlaceText(double latitude, double longitude) => $"{FleetTable.Text(latitude)}, {FleetTable.Text(longitude)}";

    private static string VisitText(VisitValue visit) => FleetTable.Text(visit.At.Date)
        + (visit.BatteryVolts is { } volts ? $", {FleetTable.Text(volts)} V" : "") + (
            visit.MeterM3 is { } meter ? $", {FleetTable.Text(meter)} m3" : "");
}
