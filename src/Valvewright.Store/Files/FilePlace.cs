using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Engine.Words;

namespace Valvewright.Store.Files;

/// <summary>A store in one SQLite file.</summary>
internal sealed class FilePlace : StorePlace
{
    private readonly DbContextOptions<StoreContext> options;

    public FilePlace(string said)
    {
        Shown = said;
        File = Path.GetFullPath(said);
        options = new DbContextOptionsBuilder<StoreContext>()
            .UseSqlite(StoreConnection.For(File, pooled: true))
            .AddInterceptors(new StoreConnection.Settings())
            .Options;
    }

    public string File { get; }

    public override string Shown { get; }

    public override bool Exists() => System.IO.File.Exists(File);

    internal override StoreContext Context() => new(options);

    internal override IDisposable Hold() => StoreLock.Take(File);

    internal override void BringUpToDate(StoreContext context)
    {
        SqliteConnection connection = (SqliteConnection)context.Database.GetDbConnection();
        context.Database.OpenConnection();
        bool isNew = IsEmpty(connection);
        if (!isNew)
        {
            Recognize(connection);
        }

        connection.Scalar("PRAGMA journal_mode=WAL");
        if (isNew || context.Database.GetPendingMigrations().Any())
        {
            // A program that was killed while it migrated leaves its mark behind and would keep every later one waiting. The lock file says
            // no one else is here.
            connection.Scalar("DROP TABLE IF EXISTS __EFMigrationsLock");
            connection.Scalar($"PRAGMA application_id={StoreConnection.ApplicationId}");
            context.Database.Migrate();
        }
    }

    internal override IDbContextTransaction BeginWriting(StoreContext context) => context.Database.BeginTransaction();

    internal override void CountOn(StoreContext context)
    {
        // SQLite counts on from the greatest number there ever was.
    }

    internal override void LetGo()
    {
        using StoreContext context = Context();
        SqliteConnection.ClearPool((SqliteConnection)context.Database.GetDbConnection());
    }

    internal override Intact Check() => Guarded(() =>
    {
        using SqliteConnection connection = StoreConnection.Open(File, SqliteOpenMode.ReadWrite);
        return Check(connection);
    });

    /// <summary>Looks through a copy that has another name as yet.</summary>
    internal Intact Check(SqliteConnection connection)
    {
        if (IsEmpty(connection))
        {
            throw new StoreException($"{Shown}: there is nothing in this file.");
        }

        Recognize(connection);
        return Intact.Of(connection, connection.Column("PRAGMA integrity_check").Where(f => f != "ok").Select(OfSqlite));
    }

    private static Sentence OfSqlite(string fault) => (Sentence)$"SQLite: {fault}";

    internal override T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException reason)
        {
            throw new StoreException($"{Shown}: not a store, or damaged ({reason.Message}).", reason);
        }
        catch (Exception reason) when (reason is IOException or UnauthorizedAccessException)
        {
            throw new StoreException($"{Shown}: {reason.Message}", reason);
        }
    }

    /// <summary>Whether there is nothing in it: a new file.</summary>
    private static bool IsEmpty(SqliteConnection connection) =>
        (long)connection.Scalar(
            "SELECT count(*) FROM sqlite_schema WHERE name NOT LIKE '\\_\\_EF%' ESCAPE '\\' AND name NOT LIKE 'sqlite%'")! == 0;

    private void Recognize(SqliteConnection connection)
    {
        if ((long)connection.Scalar("PRAGMA application_id")! != StoreConnection.ApplicationId)
        {
            throw new StoreException($"{Shown}: this is a database, but not a store of Valvewright.");
        }

        using StoreContext context = Context();
        Recognize(context, connection.Column("SELECT MigrationId FROM __EFMigrationsHistory"));
    }
}
