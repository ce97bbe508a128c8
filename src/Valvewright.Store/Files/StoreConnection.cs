using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Valvewright.Store.Files;

/// <summary>How the database file is opened, always in the same way.</summary>
internal static class StoreConnection
{
    /// <summary>Marks a file as a store, in the header that SQLite keeps for it: "VvWr".</summary>
    public const int ApplicationId = 0x56765772;

    /// <summary>How long to wait for another process that writes, s.</summary>
    private const int BusySeconds = 30;

    /// <summary>Connection string of a file.</summary>
    public static string For(string file, SqliteOpenMode mode = SqliteOpenMode.ReadWriteCreate, bool pooled = false) =>
        new SqliteConnectionStringBuilder
    {
        DataSource = Path.GetFullPath(file),
        Mode = mode,
        ForeignKeys = true,
        DefaultTimeout = BusySeconds,
        Pooling = pooled,
    }.ToString();

    /// <summary>An open connection of its own.</summary>
    public static SqliteConnection Open(string file, SqliteOpenMode mode)
    {
        SqliteConnection connection = new(For(file, mode));
        connection.Open();
        return connection;
    }

    /// <summary>Sets what SQLite keeps per connection: every commit reaches the disk before it counts.</summary>
    public sealed class Settings : DbConnectionInterceptor
    {
        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            using DbCommand command = connection.CreateCommand();
            command.CommandText = "PRAGMA synchronous=FULL; PRAGMA busy_timeout=30000; PRAGMA foreign_keys=ON;";
            command.ExecuteNonQuery();
        }
    }
}
