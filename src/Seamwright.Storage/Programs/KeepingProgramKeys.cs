using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Programs;

/// <summary>Keeps the keys of other programs, by their hashes.</summary>
public static class KeepingProgramKeys
{
    /// <summary>How exactly the last use is kept: a sensor that calls each second must not write each second.</summary>
    public static Duration UseGrain { get; } = Duration.FromMinutes(1);

    /// <summary>Stores a new key.</summary>
    /// <param name="store">The store.</param>
    /// <param name="key">The key.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task AddProgramKey(this ShopStore store, ProgramKey key, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(key);
        return store.InOne(async db =>
        {
            db.ProgramKeys.Add(new()
            {
                Id = key.Id,
                Hash = key.Hash,
                Beginning = key.Beginning,
                Name = key.Name,
                Scopes = string.Join(' ', key.Scopes),
                Account = key.Account,
                Made = key.Made,
                Ends = key.Ends,
            });
            return await db.SaveChangesAsync(stop);
        }, stop);
    }

    /// <summary>All keys, the youngest first; those that ended among them.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<ProgramKey>> ProgramKeys(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.ProgramKeys.OrderByDescending(row => row.Made).ThenBy(row => row.Id).ToListAsync(stop)).Select(Read).ToImmutableArray());
    }

    /// <summary>The key with this hash, good or not; null = none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="hash">SHA-256 of what was shown, hexadecimal.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ProgramKey?> ProgramKeyOf(this ShopStore store, string hash, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => await db.ProgramKeys.SingleOrDefaultAsync(row => row.Hash == hash, stop) is { } row ? Read(row) : null);
    }

    /// <summary>Notes that a key was used now.</summary>
    /// <param name="store">The store.</param>
    /// <param name="key">The key as it was read.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task NoteUse(this ShopStore store, ProgramKey key, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(key);
        var now = store.Now;
        if (key.Used is { } used && now - used < UseGrain)
            return;
        await store.InOne(db => db.ProgramKeys.Where(row => row.Id == key.Id).ExecuteUpdateAsync(set => set.SetProperty(row => row.Used, now), stop), stop);
    }

    /// <summary>Takes a key back; it opens nothing from now on.</summary>
    /// <returns>Whether there was such a key that had not been taken back.</returns>
    /// <param name="store">The store.</param>
    /// <param name="id">The key.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<bool> TakeBackProgramKey(this ShopStore store, Guid id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var now = store.Now;
        return store.InOne(async db => await db.ProgramKeys.Where(row => row.Id == id && row.TakenBack == null)
            .ExecuteUpdateAsync(set => set.SetProperty(row => row.TakenBack, now), stop) > 0, stop);
    }

    private static ProgramKey Read(ProgramKeyRow row) => new(
        row.Id, row.Hash, row.Beginning, row.Name, [.. row.Scopes.Split(' ', StringSplitOptions.RemoveEmptyEntries)], row.Account, row.Made, row.Ends, row.Used, row.TakenBack);
}
