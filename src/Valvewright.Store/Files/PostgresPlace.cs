using System.Data;
using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using Valvewright.Engine.Words;

namespace Valvewright.Store.Files;

/// <summary>A store in a schema of a PostgreSQL database; several programs may have it open.</summary>
internal sealed class PostgresPlace : StorePlace
{
    /// <summary>The schema that holds the store, so that it gets along with what else is in the database.</summary>
    public const string UsualSchema = "valvewright";

    /// <summary>How long a connection may take to say that it is there, s.</summary>
    private const int AnswerSeconds = 10;

    /// <summary>Tells this program from others in PostgreSQL's list of connections.</summary>
    private static readonly string Own = Guid.NewGuid().ToString("N")[..8];

    private readonly string connection;
    private readonly string schema;
    private readonly DbContextOptions<PostgresContext> options;

    public PostgresPlace(NpgsqlConnectionStringBuilder how)
    {
        how.SearchPath = schema = string.IsNullOrEmpty(how.SearchPath) ? UsualSchema : how.SearchPath;
        if (schema.Any(c => !char.IsAsciiLetterLower(c) && !char.IsAsciiDigit(c) && c != '_'))
        {
            throw new StoreException($"'{schema}' can't be the name of the schema: small letters, digits and _ only.");
        }

        Shown = PostgresAddress.Shown(how);
        // One connection stays open, so that others see that the store is in use.
        how.ApplicationName = $"{schema} {Own}";
        how.MinPoolSize = Math.Max(how.MinPoolSize, 1);
        how.IncludeErrorDetail = how.PersistSecurityInfo = false;
        connection = how.ToString();
        options = new DbContextOptionsBuilder<PostgresContext>()
            .UseNpgsql(connection, o => o.MigrationsHistoryTable("__EFMigrationsHistory", schema))
            .AddInterceptors(new Answering())
            .Options;
    }

    public override string Shown { get; }

    /// <summary>With the password.</summary>
    public string Connection => connection;

    public override bool Exists() => Guarded(() =>
    {
        using StoreContext context = Context();
        context.Database.OpenConnection();
        return !IsEmpty(context.Database.GetDbConnection());
    });

    internal override StoreContext Context() => new PostgresContext(options);

    internal override IDisposable? Hold() => null;

    internal override void RequireAlone() => Guarded(() =>
    {
        using StoreContext context = Context();
        string like = $"{schema} %", own = $"{schema} {Own}";
        long others = context.Database.SqlQuery<long>($"""
            SELECT count(*) AS "Value" FROM pg_stat_activity
            WHERE datname = current_database() AND application_name LIKE {like} AND application_name <> {own}
            """).Single();
        return others == 0 ? others : throw new StoreException($"{Shown}: another program has this store open. Stop it first.");
    });

    internal override void BringUpToDate(StoreContext context)
    {
        context.Database.OpenConnection();
        DbConnection open = context.Database.GetDbConnection();
        if (open.Scalar("SHOW server_encoding") is not "UTF8")
        {
            throw new StoreException($"{Shown}: this database does not keep text as UTF-8. Create one with ENCODING 'UTF8'.");
        }

        // Of several programs that start at once, one makes the tables.
        open.Scalar($"SELECT pg_advisory_lock({StoreConnection.ApplicationId})");
        try
        {
            if (IsEmpty(open))
            {
                open.Scalar($"CREATE SCHEMA IF NOT EXISTS {schema}");
            }
            else
            {
                Recognize(context);
            }

            if (context.Database.GetPendingMigrations().Any())
            {
                context.Database.Migrate();
            }
        }
        finally
        {
            if (open.State == ConnectionState.Open)
            {
                open.Scalar($"SELECT pg_advisory_unlock({StoreConnection.ApplicationId})");
            }
        }
    }

    /// <summary>
    /// Writers of all programs take turns at an advisory lock, which PostgreSQL lets go of with the transaction, however it ends. So the
    /// numbers of the history rise in the order in which changes count, and no change has to be tried again.
    /// </summary>
    internal override IDbContextTransaction BeginWriting(StoreContext context)
    {
        IDbContextTransaction transaction = context.Database.BeginTransaction(IsolationLevel.ReadCommitted);
        try
        {
            context.Database.ExecuteSql($"SELECT pg_advisory_xact_lock({StoreConnection.ApplicationId})");
            return transaction;
        }
        catch
        {
            transaction.Dispose();
            throw;
        }
    }

    internal override void CountOn(StoreContext context) => context.Database.ExecuteSqlRaw("""
        SELECT setval(pg_get_serial_sequence('"History"', 'Number'), (SELECT coalesce(max("Number"), 0) + 1 FROM "History"), false)
        """);

    internal override void LetGo()
    {
        using NpgsqlConnection any = new(connection);
        NpgsqlConnection.ClearPool(any);
    }

    internal override Intact Check() => Guarded(() =>
    {
        using StoreContext context = Context();
        using IDbContextTransaction moment = context.Database.BeginTransaction(IsolationLevel.RepeatableRead);
        DbConnection open = context.Database.GetDbConnection();
        if (IsEmpty(open))
        {
            throw new StoreException($"{Shown}: there is no store in this database.");
        }

        Recognize(context);
        return Intact.Of(open, []);
    });

    internal override T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (Exception reason) when (DatabaseLoss.Database(reason) is { } said)
        {
            throw new StoreException(said.SqlState switch
            {
                PostgresErrorCodes.InvalidCatalogName => (Sentence)$"{Shown}: this database does not exist. Create it first: createdb",
                PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification =>
                    (Sentence)$"{Shown}: the database refuses this user or password.",
                PostgresErrorCodes.InsufficientPrivilege =>
                    (Sentence)$"{Shown}: the database does not let this user do that ({said.Message}).",
                { } => (Sentence)$"{Shown}: the database refuses: {said.Message}",
                null => (Sentence)$"{Shown}: the database can't be reached ({said.InnerException?.Message ?? said.Message}).",
            }, reason);
        }
    }

    private static bool IsEmpty(DbConnection open) => (long)open.Scalar("""
        SELECT count(*) FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
        WHERE n.nspname = current_schema() AND c.relkind IN ('r', 'p', 'v') AND c.relname NOT LIKE '\_\_EF%'
        """)! == 0;

    private void Recognize(StoreContext context)
    {
        string[] applied = [.. context.Database.GetAppliedMigrations()];
        if (!applied.Contains(context.GetService<IMigrationsAssembly>().Migrations.Keys.First()))
        {
            throw new StoreException($"{Shown}: this is a database, but not a store of Valvewright.");
        }

        Recognize(context, applied);
    }

    /// <summary>
    /// Gives out connections that answer: those that a restart of the database cut are thrown away. And a commit counts when it has
    /// reached the disk, whatever the database is set to.
    /// </summary>
    private sealed class Answering : DbConnectionInterceptor
    {
        public override InterceptionResult ConnectionOpening(
            DbConnection connection, ConnectionEventData eventData, InterceptionResult result)
        {
            NpgsqlConnection opening = (NpgsqlConnection)connection;
            opening.Open();
            try
            {
                Ask(opening);
            }
            catch (NpgsqlException)
            {
                NpgsqlConnection.ClearPool(opening);
                opening.Close();
                opening.Open();
                Ask(opening);
            }

            return InterceptionResult.Suppress();
        }

        private static void Ask(NpgsqlConnection connection)
        {
            using DbCommand command = connection.Command(
                "SELECT set_config('synchronous_commit', 'on', false) WHERE current_setting('synchronous_commit') IN ('off', 'local')");
            command.CommandTimeout = AnswerSeconds;
            command.ExecuteScalar();
        }
    }
}
