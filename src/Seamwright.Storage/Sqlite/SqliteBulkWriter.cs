using System.Data.Common;
using Microsoft.Data.Sqlite;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Sqlite;

/// <summary>One prepared command, filled anew for each row.</summary>
internal sealed class SqliteBulkWriter : IBulkWriter
{
    private readonly DbCommand _command;

    public SqliteBulkWriter(DbConnection connection, DbTransaction transaction, TableShape table)
    {
        _command = connection.CreateCommand();
        _command.Transaction = transaction;
        string columns = string.Join(", ", table.Columns.Select(column => TableShape.Quoted(column.Name)));
        string places = string.Join(", ", table.Columns.Select((_, i) => $"$v{i}"));
        _command.CommandText = $"INSERT INTO {TableShape.Quoted(table.Name)} ({columns}) VALUES ({places})";
        for (int i = 0; i < table.Columns.Length; i++)
            _command.Parameters.Add(new SqliteParameter($"$v{i}", null));
        _command.Prepare();
    }

    public Task Write(object?[] values)
    {
        for (int i = 0; i < values.Length; i++)
            _command.Parameters[i].Value = values[i] ?? DBNull.Value;
        _command.ExecuteNonQuery();
        return Task.CompletedTask;
    }

    public Task Finish() => Task.CompletedTask;

    public ValueTask DisposeAsync() => _command.DisposeAsync();
}
