using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Engine.Words;
using Valvewright.Files.Problems;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;

namespace Valvewright.Cli.Commands;

/// <summary>Lists, invites and removes the people who sign in to a served store.</summary>
internal static class PeopleCommand
{
    private const string List = "list", Add = "add", Remove = "remove", Password = "password";

    /// <summary>The command that sets up the first owner.</summary>
    public const string SetUp = "valvewright people add NAME --organization NAME --role owner --store FILE";

    /// <summary>The file of the people, where it is not next to the store.</summary>
    public static Option<string?> People() => new("--people")
        { Description = "The file of the people. Default: next to the store's file; a database needs it named.", HelpName = "file" };

    public static Job Make()
    {
        Argument<string> deed = new("deed") { Description =
            "list, add (prints an invitation link), remove, or password (prints a link for a new one).",
                DefaultValueFactory = _ => List };
        deed.AcceptOnlyFromAmong(List, Add, Remove, Password);
        Argument<string?> name = new("name") { Description = "The person's name, as records are signed with it.",
            Arity = ArgumentArity.ZeroOrOne };
        Option<string> store = StoreArguments.Store();
        Option<string?> people = People();
        Option<string?> organization = new("--organization")
            { Description = "The person's organization. With a first owner, a new one is made.", HelpName = "name" };
        Option<string> role = new("--role") { Description = "What the person may do: owner, planner, technician or reader.",
            HelpName = "role", DefaultValueFactory = _ => "technician" };
        role.AcceptOnlyFromAmong("owner", "planner", "technician", "reader");
        Option<string> address = new("--address")
            { Description = "The server's address, as browsers open it.", HelpName = "address",
                DefaultValueFactory = _ => $"http://127.0.0.1:{ServerOptions.UsualPort}" };
        Job job = new("people", "List, invite and remove the people who sign in to a served store.",
            "valvewright people add \"Ana Ruiz\" --organization \"City Parks\" --role owner --store sites.db",
                "valvewright people list --store sites.db", "valvewright people remove \"Ana Ruiz\" --store sites.db");
        job.Arguments.Add(deed);
        job.Arguments.Add(name);
        foreach (Option option in new Option[] { store, people, organization, role, address })
        {
            job.Options.Add(option);
        }

        return job.Does((parse, sheet, _) =>
        {
            string done = parse.GetValue(deed)!;
            string? said = parse.GetValue(name);
            if (done == List ? said is not null : said is null || !PeopleOffice.IsName(said))
            {
                throw Wrong("name", said ?? "", done == List ? "no name" : "a name of at most 100 characters on one line",
                    null, done == List ? "everyone is listed" : "no name to work with");
            }

            if (!Uri.TryCreate(parse.GetValue(address), UriKind.Absolute, out Uri? server) || server.Scheme is not ("http" or "https"))
            {
                throw Wrong("--address", parse.GetValue(address) ?? "", "an address such as https://sites.example.org", null,
                    "not an address that a browser opens");
            }

            string by = parse.GetValue(people) ?? parse.GetValue(store)!;
            if (done != Add && !PeopleOffice.IsSetUp(by))
            {
                throw Wrong("--store", by, SetUp, null, "there is no one to sign in yet");
            }

            using PeopleOffice office = PeopleOffice.Open(by, SystemClock.Instance);
            MemberRole may = Enum.Parse<MemberRole>(parse.GetValue(role)!, ignoreCase: true);
            return done switch
            {
                List => Show(office, sheet),
                Add => Invite(office, said!, OrganizationFor(office, parse.GetValue(organization), may), may, server, sheet),
                _ => Change(office, done, Found(office, said!, parse.GetValue(organization)), server, sheet),
            };
        });
    }

    private static int Show(PeopleOffice office, Sheet sheet)
    {
        Table table = new("name", "organization", "role", "invited until");
        foreach (PersonLine line in office.Lines)
        {
            table.Row(Printable.Of(line.Name), Printable.Of(line.Organization), Word(line.Role),
                line.InvitedUntil is { } until ? LocalDatePattern.Iso.Format(until.InUtc().Date) : "");
        }

        sheet.Answer(new PeopleAnswer(office.Lines.Select(l => l).ToListOf()));
        sheet.Show(table);
        return ExitCode.Done;
    }

    private static int Invite(PeopleOffice office, string name, string organization, MemberRole role, Uri server, Sheet sheet)
    {
        string link = new Uri(server, office.Invite(name, organization, role)).ToString();
        sheet.Answer(new LinkAnswer(name, organization, link));
        sheet.Say($"{Printable.Of(name)} can join {Printable.Of(organization)} with this link, once, within 7 days:");
        sheet.Verbatim(link);
        return ExitCode.Done;
    }

    private static int Change(PeopleOffice office, string deed, PersonLine person, Uri server, Sheet sheet)
    {
        if (deed == Password)
        {
            string link = new Uri(server, office.Renew(person.Name, person.Organization)).ToString();
            sheet.Answer(new LinkAnswer(person.Name, person.Organization, link));
            sheet.Say($"{Printable.Of(person.Name)} can set a new password with this link, once, within 7 days:");
            sheet.Verbatim(link);
            return ExitCode.Done;
        }

        if (!office.Remove(person.Name, person.Organization))
        {
            throw Wrong("name", person.Name, "another owner first", null, "an organization needs an owner");
        }

        sheet.Answer(new LinkAnswer(person.Name, person.Organization, null));
        sheet.Say($"{Printable.Of(person.Name)} is removed from {Printable.Of(person.Organization)}. Records keep the name.");
        return ExitCode.Done;
    }

    /// <summary>The organization that is meant: the only one where none is named; a new one only with its first owner.</summary>
    private static string OrganizationFor(PeopleOffice office, string? said, MemberRole role)
    {
        IReadOnlyList<string> there = office.Organizations;
        if (said is null)
        {
            return there.Count == 1 ? there[0] : throw Wrong("--organization", "", there.Count == 0 ? "the name of the first organization"
                : string.Join(", ", there), null, "no organization is named");
        }

        return there.Contains(said) || (role == MemberRole.Owner && PeopleOffice.IsName(said)) ? said
            : throw Wrong("--organization", said, "an organization that exists, or --role owner for the first person of a new one",
                NearestWord.To(said, there), "there is no organization of this name");
    }

    private static PersonLine Found(PeopleOffice office, string name, string? organization)
    {
        PersonLine[] members = [.. office.Lines.Where(l => l.InvitedUntil is null)];
        PersonLine[] named = [.. members.Where(l => l.Name == name && (organization is null || l.Organization == organization))];
        return named.Length == 1 ? named[0] : named.Length > 1
            ? throw Wrong("--organization", "", string.Join(", ", named.Select(l => l.Organization)), null,
                "this person belongs to several organizations")
            : throw Wrong("name", name, string.Join(", ", members.Select(l => l.Name).Distinct()),
                NearestWord.To(name, members.Select(l => l.Name)), "there is no member of this name");
    }

    private static ProblemsException Wrong(string where, string found, Sentence expected, string? nearest, Sentence message) =>
        new(new Problem(where, 0, 0, found, expected, nearest, message));

    private static string Word(MemberRole role) => role switch
    {
        MemberRole.Owner => "owner",
        MemberRole.Planner => "planner",
        MemberRole.Technician => "technician",
        _ => "reader",
    };

    /// <summary>What <c>--json</c> prints of a list.</summary>
    private sealed record PeopleAnswer(ListOf<PersonLine> People);

    /// <summary>What <c>--json</c> prints of a link, or of a removal.</summary>
    private sealed record LinkAnswer(string Name, string Organization, string? Link);
}
