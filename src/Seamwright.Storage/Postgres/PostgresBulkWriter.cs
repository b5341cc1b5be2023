using Npgsql;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Postgres;

/// <summary>The database's own binary copying.</summary>
internal sealed class PostgresBulkWriter : IBulkWriter
{
    private readonly NpgsqlBinaryImporter _importer;
    private readonly string[] _types;

    private PostgresBulkWriter(NpgsqlBinaryImporter importer, string[] types)
    {
        _importer = importer;
        _types = types;
    }

    public static async Task<PostgresBulkWriter> Begin(NpgsqlConnection connection, TableShape table, CancellationToken stop)
    {
        string columns = string.Join(", ", table.Columns.Select(column => TableShape.Quoted(column.Name)));
        string copy = $"COPY {TableShape.Quoted(table.Name)} ({columns}) FROM STDIN (FORMAT BINARY)";
        string[] types = [.. table.Columns.Select(column => column.Property.GetTypeMapping() is Microsoft.EntityFrameworkCore.Storage.RelationalTypeMapping mapping ? mapping.StoreTypeNameBase : "text")];
        return new(await connection.BeginBinaryImportAsync(copy, stop), types);
    }

    public async Task Write(object?[] values)
    {
        await _importer.StartRowAsync();
        for (int i = 0; i < values.Length; i++)
        {
            if (values[i] is { } value)
                await _importer.WriteAsync(value, _types[i]);
            else
                await _importer.WriteNullAsync();
        }
    }

    public async Task Finish() => await _importer.CompleteAsync();

    public ValueTask DisposeAsync() => _importer.DisposeAsync();
}
