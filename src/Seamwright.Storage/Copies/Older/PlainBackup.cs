using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Copies.Older;

/// <summary>
/// Writes the rows of a PostgreSQL database as a backup of the version that it still has, before it is brought up to date. Without the model of today, as there the
/// database itself tells a point in time from a number. Photos and keys are not in it: an upgrade does not touch them.
/// </summary>
internal static class PlainBackup
{
    /// <summary>Writes it into the folder of the copies; it appears when it has been read back.</summary>
    /// <returns>The file.</returns>
    /// <exception cref="StoreUnusableException">It did not read back as it was written.</exception>
    public static async Task<string> Write(Database database, ShopDb db, Upgrading how, string migration, CancellationToken stop)
    {
        string schema = Database.SchemaName(migration);
        string copy = how.CopyOf(schema, ".seamwright");
        string half = copy + ".part";
        try
        {
            await using (var stream = PrivateFile.Begin(half))
            {
                using (var archive = new Archive(stream))
                {
                    var counts = ImmutableSortedDictionary.CreateBuilder<string, long>(StringComparer.Ordinal);
                    var tables = await database.Tables(db, stop);
                    foreach (var type in OlderBackup.ModelAt(db, migration).GetEntityTypes())
                    {
                        var table = new TableShape(type);
                        if (tables.Contains(table.Name))
                            await archive.Put($"tables/{table.Name}.jsonl", compress: true, async target => counts.Add(table.Name, await WriteRows(db, table, target, stop)));
                    }

                    await archive.PutManifest(ManifestText.Of(new(schema, how.Now, counts.ToImmutable(), archive.Files)));
                }

                stream.Flush(flushToDisk: true);
            }

            if ((await BackupCheck.Check(half, stop)).Fault is { } fault)
                throw new StoreUnusableException(fault.Key, [.. fault.Args]);
            File.Move(half, copy, overwrite: true);
            return copy;
        }
        finally
        {
            File.Delete(half);
        }
    }

    private static async Task<long> WriteRows(ShopDb db, TableShape table, Stream target, CancellationToken stop)
    {
        string order = string.Join(", ", table.KeyColumns.Select(TableShape.Quoted));
        await using var command = TableFacts.Command(db, $"SELECT {string.Join(", ", table.Columns.Select(column => TableShape.Quoted(column.Name)))} FROM {TableShape.Quoted(table.Name)} ORDER BY {order}");
        await using var reader = await command.ExecuteReaderAsync(stop);
        await using var json = new Utf8JsonWriter(target);
        long count = 0;
        while (await reader.ReadAsync(stop))
        {
            json.WriteStartObject();
            for (int i = 0; i < table.Columns.Length; i++)
            {
                json.WritePropertyName(table.Columns[i].Name);
                Value(json, reader.GetDataTypeName(i) == "date" && !reader.IsDBNull(i) ? reader.GetFieldValue<DateOnly>(i) : reader.GetValue(i));
            }

            json.WriteEndObject();
            await json.FlushAsync(stop);
            json.Reset();
            target.Write("\n"u8);
            count++;
        }

        return count;
    }

    private static void Value(Utf8JsonWriter json, object value)
    {
        switch (value)
        {
            case DBNull: json.WriteNullValue(); break;
            case string text: json.WriteStringValue(text); break;
            case bool flag: json.WriteBooleanValue(flag); break;
            case int whole: json.WriteNumberValue(whole); break;
            case long whole: json.WriteNumberValue(whole); break;
            case double number: json.WriteNumberValue(number); break;
            case decimal amount: json.WriteStringValue(amount.ToString(CultureInfo.InvariantCulture)); break;
            case Guid id: json.WriteStringValue(id); break;
            case DateTime moment: json.WriteStringValue(InstantPattern.ExtendedIso.Format(Instant.FromDateTimeUtc(DateTime.SpecifyKind(moment, DateTimeKind.Utc)))); break;
            case DateOnly date: json.WriteStringValue(date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)); break;
            case byte[] bytes: json.WriteBase64StringValue(bytes); break;
            default: throw new InvalidOperationException($"A backup cannot hold the {value.GetType().Name}.");
        }
    }
}
