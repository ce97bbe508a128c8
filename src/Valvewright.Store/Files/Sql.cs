using System.Data.Common;
using Npgsql;

namespace Valvewright.Store.Files;

/// <summary>Asks a database in its own words.</summary>
internal static class Sql
{
    /// <summary>The first column of the first row.</summary>
    public static object? Scalar(this DbConnection connection, string sql)
    {
        using DbCommand command = connection.Command(sql);
        return command.ExecuteScalar();
    }

    /// <summary>The first column of every row.</summary>
    public static List<string> Column(this DbConnection connection, string sql)
    {
        using DbCommand command = connection.Command(sql);
        using DbDataReader reader = command.ExecuteReader();
        List<string> rows = [];
        while (reader.Read())
        {
            rows.Add(reader.GetValue(0)?.ToString() ?? "");
        }

        return rows;
    }

    /// <summary>A command; over a large database it takes its time.</summary>
    public static DbCommand Command(this DbConnection connection, string sql)
    {
        DbCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Only constants of this room come here.
        command.CommandText = sql;
#pragma warning restore CA2100
        if (connection is NpgsqlConnection)
        {
            command.CommandTimeout = 0;
        }

        return command;
    }
}
