using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Whole;

/// <summary>
/// Everything that a command prints, as it was read and approved: <c>Approved/</c>. The samples of README.md and docs/ are taken from
/// these files.
/// </summary>
public sealed partial class CommandOutputTests(PlannedDemo demo) : IClassFixture<PlannedDemo>
{
    [Fact]
    public void Plan() => Approve(PlannedDemo.PlanLine, demo.Plan, null);

    [Theory]
    [InlineData("help", "--help")]
    [InlineData("help-es", "--help --language es")]
    [InlineData("plan-help", "plan --help")]
    [InlineData("plan-help-es", "plan --help --language es")]
    [InlineData("no-such-command-es", "plann demo/quarry-hill --language es")]
    [InlineData("plan-impossible", "plan demo/thin-creek --from 2026-04-01")]
    [InlineData("plan-json", "plan demo/thin-creek --from 2026-04-01 --json")]
    [InlineData("plan-impossible-es", "plan demo/thin-creek --from 2026-04-01 --language es")]
    [InlineData("plan-wrong", "plan demo/quary-hill")]
    [InlineData("season", "season demo/quarry-hill --visits 3 --out season")]
    [InlineData("season-today",
        "season demo/quarry-hill --today 2019-06-14 --so-far reference/weather/nasapower_lankaran-hills.csv --percent Gate=80")]
    [InlineData("season-today-json",
        "season demo/quarry-hill --today 2019-06-14 --so-far reference/weather/nasapower_lankaran-hills.csv --json")]
    [InlineData("season-today-es",
        "season demo/quarry-hill --today 2019-06-14 --so-far reference/weather/nasapower_lankaran-hills.csv --percent Gate=80 --language es")]
    [InlineData("season-wrong", "season demo/quarry-hill --unmet-weight 6 --most-water 300m3")]
    [InlineData("prove", "prove demo/quarry-hill")]
    [InlineData("prove-es", "prove demo/quarry-hill --language es")]
    [InlineData("prove-wrong", "prove demo/quarry-hill --plan missing.json")]
    [InlineData("card", "card demo/quarry-hill --text --from 2026-04-01")]
    [InlineData("card-es", "card demo/quarry-hill --text --from 2026-04-01 --language es")]
    [InlineData("card-json", "card demo/quarry-hill --text --controller Gate --from 2026-04-01 --json")]
    [InlineData("card-wrong", "card demo/quarry-hill --controller Gaet")]
    [InlineData("timeline", "timeline demo/quarry-hill --from 2026-04-01")]
    [InlineData("timeline-on", "timeline demo/quarry-hill --on 2026-08-01")]
    [InlineData("timeline-next", "timeline demo/quarry-hill --from 2026-04-01 --next-station 3")]
    [InlineData("timeline-water", "timeline demo/quarry-hill --water-in 2026-07")]
    [InlineData("timeline-json", "timeline demo/quarry-hill --on 2026-08-01 --json")]
    [InlineData("timeline-es", "timeline demo/quarry-hill --on 2026-08-01 --language es")]
    [InlineData("timeline-wrong", "timeline demo/quarry-hill --from 2026-04-01 --to 2026-03-01")]
    [InlineData("check", "check demo/quarry-hill reading.txt --controller Gate --at 2026-07-14T15:20")]
    [InlineData("check-es", "check demo/quarry-hill reading.txt --controller Gate --at 2026-07-14T15:20 --language es")]
    [InlineData("check-alone", "check demo/quarry-hill reading.txt --controller Gate --at 2026-07-14T15:20 --alone")]
    [InlineData("check-seen", "check demo/quarry-hill --controller Gate --at 2026-07-14T15:20 --seen \"ran at 19:30 on Tuesday\"")]
    [InlineData("check-json", "check demo/quarry-hill reading.txt --controller Gate --at 2026-07-14T15:20 --json")]
    [InlineData("check-wrong", "check demo/quarry-hill garbled.txt --controller Gate --at 2026-07-14T15:20")]
    [InlineData("et", "et reference/weather/azmet_06_maricopa.csv --place 33,-112,361 --from 2012-06-01 --to 2012-06-14")]
    [InlineData("et-json", "et reference/weather/azmet_06_maricopa.csv --place 33,-112,361 --from 2012-06-01 --to 2012-06-03 --json")]
    [InlineData("et-wrong", "et reference/weather/azmet_06_maricopa.csv --place 361,33")]
    [InlineData("profiles", "profiles")]
    [InlineData("profiles-json", "profiles --json")]
    [InlineData("rounds", "rounds demo/quarry-hill demo/thin-creek --today 2026-05-14 --start 38.35,48.80 --out rounds")]
    [InlineData("rounds-es", "rounds demo/quarry-hill --today 2026-05-14 --start 38.35,48.80 --language es")]
    [InlineData("rounds-json", "rounds demo/quarry-hill --today 2026-05-14 --start 38.35,48.80 --json")]
    [InlineData("rounds-help", "rounds --help")]
    [InlineData("rounds-wrong", "rounds demo/quarry-hill --start here")]
    [InlineData("rounds-advice", "rounds demo/quarry-hill demo/thin-creek --today 2019-06-14 --advice")]
    [InlineData("rounds-advice-es", "rounds demo/quarry-hill demo/thin-creek --today 2019-06-14 --advice --language es")]
    [InlineData("accounts", "accounts hand/quarry-hill demo/thin-creek --done done.csv --today 2026-11-28 --out accounts")]
    [InlineData("accounts-es", "accounts hand/quarry-hill demo/thin-creek --done done.csv --today 2026-11-28 --language es")]
    [InlineData("accounts-json", "accounts hand/quarry-hill --year 2012 --today 2026-11-28 --json")]
    [InlineData("accounts-help", "accounts --help")]
    [InlineData("accounts-help-es", "accounts --help --language es")]
    [InlineData("accounts-wrong", "accounts hand/quarry-hill --year 2031 --today 2026-11-28")]
    [InlineData("accounts-wrong-es", "accounts hand/quarry-hill --year 1812 --today 2026-11-28 --language es")]
    [InlineData("serve-wrong", "serve --store sites.db --port 99999")]
    [InlineData("verify-wrong", "verify --store missing.db")]
    [InlineData("backup-wrong", "backup --store missing.db copy.db")]
    [InlineData("restore-wrong", "restore missing.db")]
    [InlineData("serve-workers-wrong", "serve --store sites.db --workers-listen 192.0.2.7")]
    [InlineData("work-help", "work --help")]
    [InlineData("work-help-es", "work --help --language es")]
    [InlineData("work-wrong", "work --join sites.db")]
    [InlineData("work-wrong-es", "work --join sites.db --language es")]
    [InlineData("move-help", "move --help")]
    [InlineData("move-wrong", "move --from missing.db --to sites.db")]
    [InlineData("move-wrong-es", "move --from missing.db --to sites.db --language es")]
    [InlineData("store-wrong", "verify --store postgresql://ana:secret@/sites?host=/nowhere")]
    [InlineData("no-such-command", "plann demo/quarry-hill")]
    public async Task Others(string name, string line) => Approve(line, await demo.Run(line), name);

    private static void Approve(string line, Command.Outcome outcome, string? name) => Approval.Check(
        $"$ valvewright {line}\n{outcome.Output}{(outcome.Error.Length > 0 ? $"[error]\n{outcome.Error}" : "")}[exit code {outcome.ExitCode}]\n", name, test: name is null ? nameof(Plan) : nameof(Others));
}
