using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Seamwright.Storage.Sqlite;

/// <summary>Sets on every connection what keeps acknowledged work: nothing may depend on which connection the pool hands out.</summary>
internal sealed class SqliteSession : DbConnectionInterceptor
{
    // FULL: in WAL mode NORMAL may lose the last commits in a power cut. Recursive triggers: else REPLACE deletes past the guards.
    private const string Pragmas =
        "PRAGMA busy_timeout=10000; PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; PRAGMA recursive_triggers=ON;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData) => Set(connection);

    public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        Set(connection);
        return Task.CompletedTask;
    }

    private static void Set(DbConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        command.ExecuteNonQuery();
    }
}
