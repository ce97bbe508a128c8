using Npgsql;

namespace Valvewright.Store.Files;

/// <summary>Tells a database that can't be reached for now from other troubles.</summary>
public static class DatabaseLoss
{
    /// <summary>Whether it came about because the database was lost, is starting or stopping, or has no room: the same may work
    /// later.</summary>
    public static bool Caused(Exception? exception) => Database(exception) is { } said
        && (said is not PostgresException refused || refused.IsTransient || refused.SqlState[..2] is "57" or "08" or "53");

    /// <summary>What the database's library said in it; null where it has nothing to do with it.</summary>
    internal static NpgsqlException? Database(Exception? exception)
    {
        for (Exception? cause = exception; cause is not null; cause = cause.InnerException)
        {
            if (cause is NpgsqlException found)
            {
                return found;
            }
        }

        return null;
    }
}
