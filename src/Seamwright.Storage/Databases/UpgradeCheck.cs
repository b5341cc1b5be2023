using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;

namespace Seamwright.Storage.Databases;

/// <summary>
/// Looks at a database after it was brought up to date and before it counts. A table that is built anew on SQLite loses its triggers, and deleting the old one may
/// take rows of others along: nothing of that may go unseen.
/// </summary>
internal static class UpgradeCheck
{
    /// <summary>What is not as it should be, in the database's own words; null = nothing.</summary>
    /// <param name="database">The database.</param>
    /// <param name="db">A context on it; sees what the changes did, in whichever transaction.</param>
    /// <param name="before">What was there before.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<string?> Fault(Database database, ShopDb db, ImmutableDictionary<string, TableFacts> before, CancellationToken stop)
    {
        if ((await database.Integrity(db, stop)).Take(1).ToList() is [{ } broken])
            return broken;
        if (AppendOnly.Guards.Except(await database.GuardsThere(db, stop)).FirstOrDefault() is { } guard)
            return guard;
        var shapes = db.Model.GetEntityTypes().Select(type => new TableShape(type)).ToList();
        var tables = await database.Tables(db, stop);
        if (shapes.FirstOrDefault(shape => !tables.Contains(shape.Name)) is { } missing)
            return missing.Name;
        var indexes = await database.Indexes(db, stop);
        if (db.Model.GetEntityTypes().SelectMany(type => type.GetIndexes()).Select(index => index.GetDatabaseName()!).Except(indexes).FirstOrDefault() is { } index)
            return index;
        foreach (var shape in shapes)
        {
            // Fails where a column is missing.
            await using var columns = TableFacts.Command(db, $"SELECT {string.Join(", ", shape.Columns.Select(column => TableShape.Quoted(column.Name)))} FROM {TableShape.Quoted(shape.Name)} WHERE 1 = 0");
            await columns.ExecuteNonQueryAsync(stop);
        }

        return Changed(before, await TableFacts.OfAll(database, db, stop));
    }

    private static string? Changed(ImmutableDictionary<string, TableFacts> before, ImmutableDictionary<string, TableFacts> after)
    {
        foreach (var (name, old) in before.OrderBy(table => table.Key, StringComparer.Ordinal))
        {
            // A table that this version has no more.
            if (after.GetValueOrDefault(name) is not { } now)
                continue;
            if (now.Rows != old.Rows)
                return $"{name}: {old.Rows} → {now.Rows}";
            if (old.Columns.FirstOrDefault(column => now.Columns.TryGetValue(column.Key, out string? hash) && hash != column.Value) is { Key: { } column })
                return $"{name}.{column}";
        }

        return null;
    }
}
