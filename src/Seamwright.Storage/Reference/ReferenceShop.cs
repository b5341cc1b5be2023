using System.Collections.Immutable;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Reference;

/// <summary>What was put into the reference shop.</summary>
/// <param name="Repairs">Repairs.</param>
/// <param name="Joints">Joints of all repairs.</param>
/// <param name="Entries">Entries of the work log.</param>
/// <param name="Packs">Packs.</param>
/// <param name="Photos">Photos.</param>
/// <param name="Readings">Readings of air.</param>
public sealed record ReferenceCounts(int Repairs, int Joints, int Entries, int Packs, int Photos, int Readings);

/// <summary>
/// An invented shop with years of invented data, the same for the same seed: three years, 5,000 repairs of 12 joints, 40 log entries and 6 photos
/// each, 2,000 packs, air each 5 minutes. For measuring how the program does with a full house.
/// </summary>
public static class ReferenceShop
{
    /// <summary>Repairs of the whole reference shop.</summary>
    public const int Repairs = 5_000;

    /// <summary>Repairs that are open at its end, as many as a shop has in its bays.</summary>
    public const int Open = 12;

    private static readonly Duration Years = Duration.FromDays(3 * 365);

    /// <summary>Fills an empty store.</summary>
    /// <returns>What was put in; null where the store has repairs already.</returns>
    /// <param name="store">The store; its sheets and shop document stay as they are.</param>
    /// <param name="materials">Sheets that packs are of.</param>
    /// <param name="end">The last moment of the data.</param>
    /// <param name="repairs">How many repairs; everything else in proportion. [1…<see cref="Repairs"/>]</param>
    /// <param name="seed">Seed.</param>
    /// <param name="stop">Ends it; nothing stays.</param>
    public static async Task<ReferenceCounts?> FillWithReferenceShop(
        this ShopStore store, ImmutableArray<string> materials, Instant end, int repairs = Repairs, int seed = 1, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentOutOfRangeException.ThrowIfNotEqual(repairs is >= 1 and <= Repairs, true);
        var rows = new ReferenceRows(seed, end, Years * repairs / Repairs, repairs, materials);
        return await store.InOne(async db =>
        {
            if (await db.Repairs.AnyAsync(stop) || await db.WorkLog.AnyAsync(stop))
                return null;
            var all = rows.AllRepairs().ToList();
            await Write(store, db, all, stop);
            int packs = await Write(store, db, rows.AllPacks(), stop);
            int entries = await Write(store, db, rows.AllWork(all), stop);
            int readings = await Write(store, db, rows.AllReadings(), stop);
            int photos = await Write(store, db, rows.AllPhotos(all).Select(photo => Kept(store.Folder, photo)), stop);
            return new ReferenceCounts(all.Count, all.Count * ReferenceRows.JointsEach, entries, packs, photos, readings);
        }, stop);
    }

    private static async Task<int> Write<TRow>(ShopStore store, ShopDb db, IEnumerable<TRow> rows, CancellationToken stop)
        where TRow : class
    {
        var table = new TableShape(db.Set<TRow>().EntityType);
        await using var bulk = await store.Database.Bulk(db, table.Type, stop);
        int count = 0;
        foreach (var row in rows)
        {
            await bulk.Write(table.ValuesOf(row));
            count++;
            if (count % 1000 == 0)
                stop.ThrowIfCancellationRequested();
        }

        await bulk.Finish();
        return count;
    }

    // Not flushed one by one as real photos are: 30,000 waits for the disk would take minutes.
    private static PhotoRow Kept(DataFolder folder, (byte[] Bytes, Func<string, PhotoRow> Row) photo)
    {
        string hash = Convert.ToHexStringLower(SHA256.HashData(photo.Bytes));
        string path = folder.PhotoPath(hash);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, photo.Bytes);
        return photo.Row(hash);
    }
}
