using System.CommandLine;
using Valvewright.Cli.Output;
using Valvewright.Store.Files;

namespace Valvewright.Cli.Commands;

/// <summary>What the commands that work on a store share.</summary>
internal static class StoreArguments
{
    /// <summary>The store's file or database.</summary>
    public static Option<string> Store() => new("--store")
    {
        Description = "The file that holds the sites, or a PostgreSQL database: postgresql://USER@HOST/DATABASE.", HelpName = "store",
        DefaultValueFactory = _ => "valvewright.db",
    };

    /// <summary>A store's name as it may be shown: without a password.</summary>
    public static string Shown(string store) => StorePlace.Of(store).Shown;

    /// <summary>Says what a store holds.</summary>
    public static void Tell(Sheet sheet, Intact whole) =>
        sheet.Show(new Table(">sites", ">records", ">changes").Row($"{whole.Sites}", $"{whole.Records}", $"{whole.Entries}"));
}
