using Microsoft.Data.Sqlite;

namespace Seamwright.Storage.Sqlite;

/// <summary>
/// The only connection to a database, which keeps everybody else out until it is closed or its process dies. Leaving the WAL mode works only where nobody else has the
/// database open: so it also tells whether somebody has.
/// </summary>
internal sealed class SqliteAlone : IDisposable
{
    private const int Busy = 5;
    private const int Locked = 6;

    private SqliteAlone(SqliteConnection connection) => Connection = connection;

    /// <summary>The connection.</summary>
    public SqliteConnection Connection { get; }

    /// <summary>Takes a database for itself.</summary>
    /// <exception cref="StoreUnusableException">Somebody else is at work on it.</exception>
    public static SqliteAlone Take(string file)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false, DefaultTimeout = 3 }.ToString());
        try
        {
            connection.Open();
            if (Scalar(connection, "PRAGMA journal_mode=DELETE") is not "delete")
                throw new StoreUnusableException("upgrade.in-use", file);
            // In this mode a lock that was taken once is kept.
            Scalar(connection, "PRAGMA locking_mode=EXCLUSIVE");
            Scalar(connection, "BEGIN EXCLUSIVE");
            Scalar(connection, "COMMIT");
            return new(connection);
        }
        catch (SqliteException e) when (e.SqliteErrorCode is Busy or Locked)
        {
            connection.Dispose();
            throw new StoreUnusableException(e, "upgrade.in-use", file);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Whether an answer of the database means that somebody else holds it.</summary>
    public static bool IsTaken(SqliteException exception) => exception.SqliteErrorCode is Busy or Locked;

    public void Dispose() => Connection.Dispose();

    private static object? Scalar(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // three statements of ours
        command.CommandText = sql;
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }
}
