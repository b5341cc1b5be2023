using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;

namespace Seamwright.Storage.Databases;

/// <summary>What is known of a table by its content and not by a model, so that it can be compared across versions.</summary>
/// <param name="Rows">Rows.</param>
/// <param name="Columns">Hash of each column's values in the order of the key; only of tables in which nothing may change.</param>
internal sealed record TableFacts(long Rows, ImmutableDictionary<string, string> Columns)
{
    /// <summary>Facts of every table that is there.</summary>
    public static async Task<ImmutableDictionary<string, TableFacts>> OfAll(Database database, ShopDb db, CancellationToken stop)
    {
        var facts = ImmutableDictionary.CreateBuilder<string, TableFacts>(StringComparer.Ordinal);
        await db.Database.OpenConnectionAsync(stop);
        foreach (string table in await database.Tables(db, stop))
        {
            var columns = AppendOnly.Tables.Contains(table) ? await Hashes(db, table, stop) : [];
            facts.Add(table, new(await Database.Count(db, table, stop), columns));
        }

        return facts.ToImmutable();
    }

    private static async Task<ImmutableDictionary<string, string>> Hashes(ShopDb db, string table, CancellationToken stop)
    {
        var shape = new TableShape(db.Model.GetEntityTypes().First(type => type.GetTableName() == table));
        // Names come from the model.
        await using var command = Command(db, $"SELECT * FROM {TableShape.Quoted(table)} ORDER BY {string.Join(", ", shape.KeyColumns.Select(TableShape.Quoted))}");
        await using var reader = await command.ExecuteReaderAsync(stop);
        var hashes = Enumerable.Range(0, reader.FieldCount).Select(_ => IncrementalHash.CreateHash(HashAlgorithmName.SHA256)).ToList();
        while (await reader.ReadAsync(stop))
        {
            for (int i = 0; i < hashes.Count; i++)
                hashes[i].AppendData(Encoding.UTF8.GetBytes(Text(reader.GetValue(i)) + "\n"));
        }

        var columns = Enumerable.Range(0, reader.FieldCount).ToImmutableDictionary(reader.GetName, i => Convert.ToHexStringLower(hashes[i].GetHashAndReset()));
        hashes.ForEach(hash => hash.Dispose());
        return columns;
    }

    /// <summary>A command in the context's transaction.</summary>
    public static DbCommand Command(ShopDb db, string sql)
    {
        var command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = db.Database.CurrentTransaction is { } current ? Microsoft.EntityFrameworkCore.Storage.DbContextTransactionExtensions.GetDbTransaction(current) : null;
#pragma warning disable CA2100
        command.CommandText = sql;
#pragma warning restore CA2100
        return command;
    }

    private static string Text(object value) => value switch
    {
        DBNull => "∅",
        byte[] bytes => Convert.ToBase64String(bytes),
        string text => $"\"{text.Length}:{text}",
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };
}
