using Valvewright.Cli.Commands.Measured;

namespace Valvewright.Cli.Commands;

/// <summary>Every command, in the order that help lists them. A new command is one file beside this one and one line here.</summary>
internal static class Jobs
{
    public static IEnumerable<Job> All() =>
    [
        PlanCommand.Make(),
        SeasonCommand.Make(),
        ProveCommand.Make(),
        CardCommand.Make(),
        CheckCommand.Make(),
        Trace.TraceCommand.Make(),
        ProfilesCommand.Make(),
        TimelineCommand.Make(),
        EtCommand.Make(),
        AuditCommand.Make(),
        PressureCommand.Make(),
        BatteryCommand.Make(),
        MeterCommand.Make(),
        BudgetCommand.Make(),
        Rounds.RoundsCommand.Make(),
        Accounts.AccountsCommand.Make(),
        ServeCommand.Make(),
        WorkCommand.Make(),
        PeopleCommand.Make(),
        CarryCommand.Make(),
        TakeCommand.Make(),
        BackupCommand.Make(),
        RestoreCommand.Make(),
        VerifyCommand.Make(),
        MoveCommand.Make(),
    ];
}
