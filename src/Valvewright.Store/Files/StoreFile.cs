using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Valvewright.Store.Files;

/// <summary>Tells a store from other files.</summary>
internal static class StoreFile
{
    /// <summary>Migrations that this program knows, the oldest first.</summary>
    public static IReadOnlyList<string> Known { get; } = [.. KnownMigrations()];

    /// <summary>Whether there is nothing in it: a new file.</summary>
    public static bool IsEmpty(SqliteConnection connection) =>
        (long)connection.Scalar(
            "SELECT count(*) FROM sqlite_schema WHERE name NOT LIKE '\\_\\_EF%' ESCAPE '\\' AND name NOT LIKE 'sqlite%'")! == 0;

    /// <summary>Refuses what is no store, and a store that a later version of the program has made.</summary>
    /// <exception cref="StoreException">It is refused.</exception>
    public static void Recognize(SqliteConnection connection, string file)
    {
        if ((long)connection.Scalar("PRAGMA application_id")! != StoreConnection.ApplicationId)
        {
            throw new StoreException($"{file}: this is a database, but not a store of Valvewright.");
        }

        string? unknown = connection.Column("SELECT MigrationId FROM __EFMigrationsHistory").Except(Known).Order(StringComparer.Ordinal)
            .LastOrDefault();
        if (unknown is not null)
        {
            throw new StoreException(
                $"{file}: a later version of Valvewright has made this store (it knows '{unknown}', this version does not).");
        }
    }

    private static IEnumerable<string> KnownMigrations()
    {
        using StoreContext context = new(new DbContextOptionsBuilder<StoreContext>().UseSqlite("Data Source=:memory:").Options);
        return [.. context.GetService<IMigrationsAssembly>().Migrations.Keys.Order(StringComparer.Ordinal)];
    }
}
