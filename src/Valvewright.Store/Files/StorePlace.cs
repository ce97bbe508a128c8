using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Engine.Words;

namespace Valvewright.Store.Files;

/// <summary>Where a store is: a file, or a PostgreSQL database (docs/store.md).</summary>
public abstract partial class StorePlace
{
    /// <summary>The place that a person named.</summary>
    /// <param name="said">A file's path, <c>postgresql://user@host/database</c>, or <c>Host=...;Database=...</c>.</param>
    /// <exception cref="StoreException">It is an address of something else, or is not understood.</exception>
    public static StorePlace Of(string said)
    {
        ArgumentException.ThrowIfNullOrEmpty(said);
        return Scheme().Match(said) is { Success: true } address
            ? address.Groups[1].Value.ToUpperInvariant() is "POSTGRESQL" or "POSTGRES" ? new PostgresPlace(PostgresAddress.OfUri(said))
                : throw new StoreException($"{address.Value}: a store is a file or a PostgreSQL database. Write {PostgresAddress.Form}")
            : Keywords().IsMatch(said) ? new PostgresPlace(PostgresAddress.OfKeywords(said)) : new FilePlace(said);
    }

    /// <summary>How it is called in messages; never with a password.</summary>
    public abstract string Shown { get; }

    /// <summary>Whether it is a file.</summary>
    public bool IsFile => this is FilePlace;

    /// <summary>Whether there is anything in this place.</summary>
    /// <exception cref="StoreException">The database can't be reached.</exception>
    public abstract bool Exists();

    internal abstract StoreContext Context();

    /// <summary>Keeps others from writing as long as it is held, where one program at a time may write; else null.</summary>
    internal abstract IDisposable? Hold();

    /// <summary>Makes the tables, or brings those of an earlier version up to date.</summary>
    internal abstract void BringUpToDate(StoreContext context);

    /// <summary>Begins a transaction that writes, when its turn has come.</summary>
    internal abstract IDbContextTransaction BeginWriting(StoreContext context);

    /// <summary>To be called when entries came into the history with numbers: the next one gets a greater.</summary>
    internal abstract void CountOn(StoreContext context);

    /// <summary>Closes connections that wait for their next use.</summary>
    internal abstract void LetGo();

    /// <summary>What the store says of itself, looked through.</summary>
    internal abstract Intact Check();

    /// <summary>Says in a sentence what a database's library found wrong.</summary>
    internal abstract T Guarded<T>(Func<T> work);

    /// <summary>Whether another name leads to this place.</summary>
    internal bool IsSame(StorePlace other) => this is FilePlace { File: var file } ? other is FilePlace there && there.File == file
        : other.Shown == Shown;

    /// <summary>Refuses where another program has the store open, so far as <see cref="Hold"/> did not.</summary>
    internal virtual void RequireAlone()
    {
    }

    internal void Require()
    {
        if (!Exists())
        {
            throw new StoreException(this is FilePlace ? (Sentence)$"{Shown}: file not found."
                : (Sentence)$"{Shown}: there is no store in this database.");
        }
    }

    /// <summary>Refuses a store that a later version of the program has made.</summary>
    private protected void Recognize(StoreContext context, IEnumerable<string> applied)
    {
        string? unknown = applied.Except(context.GetService<IMigrationsAssembly>().Migrations.Keys).Order(StringComparer.Ordinal)
            .LastOrDefault();
        if (unknown is not null)
        {
            throw new StoreException(
                $"{Shown}: a later version of Valvewright has made this store (it knows '{unknown}', this version does not).");
        }
    }

    [GeneratedRegex("^([A-Za-z][A-Za-z0-9+.-]+)://")]
    private static partial Regex Scheme();

    [GeneratedRegex("(^|;) *(host|server) *=", RegexOptions.IgnoreCase)]
    private static partial Regex Keywords();
}
