using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Store.Files;

namespace Valvewright.Server.People;

/// <summary>Where people are kept: in a file next to the store, which only the account of the server can read.</summary>
internal static class PeopleFile
{
    /// <summary>The form of the tables that this program makes and reads.</summary>
    private const int Newest = 1;

    private const UnixFileMode Own = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private const string Ending = ".people";

    /// <summary>The file of a store's people, or the one that was named itself.</summary>
    /// <exception cref="StoreException">The store is a database: nothing is next to it.</exception>
    public static string Of(string store) => Stem(store) + Ending;

    /// <summary>The folder of the keys that sign-ins are sealed with: a restart signs no one out.</summary>
    public static string KeysOf(string store)
    {
        string folder = Stem(store) + ".keys";
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, Own | UnixFileMode.UserExecute);
        }

        return folder;
    }

    /// <summary>How the file is opened.</summary>
    public static DbContextOptions<PeopleContext> Options(string store) =>
        new DbContextOptionsBuilder<PeopleContext>().UseSqlite(new SqliteConnectionStringBuilder
            { DataSource = Of(store), Mode = SqliteOpenMode.ReadWrite, ForeignKeys = true, DefaultTimeout = 30 }.ToString()).Options;

    /// <summary>Makes the file where there is none, and its tables.</summary>
    /// <exception cref="StoreException">A later version of the program has made it, or it is something else.</exception>
    public static void BringUpToDate(string store)
    {
        string file = Of(store);
        if (!File.Exists(file))
        {
            FileStreamOptions made = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                made.UnixCreateMode = Own;
            }

            using FileStream empty = new(file, made);
        }

        using PeopleContext context = new(Options(store));
        try
        {
            Make(context, file);
        }
        catch (DbException reason)
        {
            throw new StoreException($"{file}: not a file of people, or damaged ({reason.Message}).", reason);
        }
    }

    /// <summary>Lets go of the file.</summary>
    public static void Release(string store)
    {
        using PeopleContext context = new(Options(store));
        SqliteConnection.ClearPool((SqliteConnection)context.Database.GetDbConnection());
    }

    private static string Stem(string store) => !StorePlace.Of(store).IsFile
        ? throw new StoreException("People are kept in a file of their own. With a database, name it: --people sites.people")
        : store.EndsWith(Ending, StringComparison.Ordinal) ? Path.GetFullPath(store[..^Ending.Length]) : Path.GetFullPath(store);

    private static void Make(PeopleContext context, string file)
    {
        IRelationalDatabaseCreator creator = context.GetService<IRelationalDatabaseCreator>();
        if (!creator.HasTables())
        {
            context.Database.ExecuteSqlRaw("PRAGMA journal_mode=WAL");
            using IDbContextTransaction transaction = context.Database.BeginTransaction();
            creator.CreateTables();
            context.Versions.Add(new PeopleVersion { Version = Newest });
            context.SaveChanges();
            transaction.Commit();
        }

        if (context.Versions.Max(v => v.Version) is > Newest and int later)
        {
            throw new StoreException($"{file}: a later version of Valvewright has made this file (form {later}).");
        }
    }
}
