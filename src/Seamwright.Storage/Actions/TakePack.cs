using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Seamwright.Storage.Actions;

/// <summary>What became of taking something that only one can have.</summary>
public abstract record TakeOutcome
{
    private TakeOutcome()
    {
    }

    /// <summary>It is yours. Taking again what one has already is no mistake.</summary>
    public sealed record Taken : TakeOutcome;

    /// <summary>Another repair has it.</summary>
    /// <param name="Repair">Which repair.</param>
    /// <param name="By">Who took it.</param>
    /// <param name="At">When.</param>
    public sealed record HeldBy(string Repair, string By, Instant At) : TakeOutcome;

    /// <summary>There is no such thing, or it is gone.</summary>
    public sealed record NotThere : TakeOutcome;
}

/// <summary>Takes packs from the shelf and puts them back.</summary>
public static class TakingPacks
{
    /// <summary>Takes a pack for a repair; of several who try at once exactly one gets it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="pack">The pack.</param>
    /// <param name="repair">The repair.</param>
    /// <param name="by">Who takes it.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<TakeOutcome> TakePack(this ShopStore store, string pack, string repair, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne<TakeOutcome>(async db =>
        {
            if (!await db.Repairs.AnyAsync(row => row.Id == repair, stop))
                return new TakeOutcome.NotThere();

            // Looked at and taken in one statement: nothing can come between.
            int taken = await db.Packs.Where(row => row.Id == pack && row.TakenFor == null && row.Gone == null).ExecuteUpdateAsync(
                set => set.SetProperty(row => row.TakenFor, repair).SetProperty(row => row.TakenBy, by)
                    .SetProperty(row => row.TakenAt, store.Now).SetProperty(row => row.Version, row => row.Version + 1), stop);
            if (taken > 0)
                return new TakeOutcome.Taken();
            var there = await db.Packs.AsNoTracking().SingleOrDefaultAsync(row => row.Id == pack && row.Gone == null, stop);
            return there is null || there.TakenFor is null ? new TakeOutcome.NotThere()
                : there.TakenFor == repair ? new TakeOutcome.Taken()
                : new TakeOutcome.HeldBy(there.TakenFor, there.TakenBy ?? "", there.TakenAt ?? default);
        }, stop);
    }

    /// <summary>Puts a pack back on the shelf.</summary>
    /// <returns>Whether it was taken for that repair.</returns>
    /// <param name="store">The store.</param>
    /// <param name="pack">The pack.</param>
    /// <param name="repair">The repair for which it was taken.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<bool> PutPackBack(this ShopStore store, string pack, string repair, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(async db => await db.Packs.Where(row => row.Id == pack && row.TakenFor == repair).ExecuteUpdateAsync(
            set => set.SetProperty(row => row.TakenFor, (string?)null).SetProperty(row => row.TakenBy, (string?)null)
                .SetProperty(row => row.TakenAt, (Instant?)null).SetProperty(row => row.Version, row => row.Version + 1), stop) > 0, stop);
    }

    /// <summary>Says that a pack has left the shop: used up, thrown away, sent back. It stays in the store.</summary>
    /// <returns>Whether it was there.</returns>
    /// <param name="store">The store.</param>
    /// <param name="pack">The pack.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<bool> PackIsGone(this ShopStore store, string pack, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(async db => await db.Packs.Where(row => row.Id == pack && row.Gone == null).ExecuteUpdateAsync(
            set => set.SetProperty(row => row.Gone, store.Now).SetProperty(row => row.TakenFor, (string?)null)
                .SetProperty(row => row.TakenBy, (string?)null).SetProperty(row => row.TakenAt, (Instant?)null)
                .SetProperty(row => row.Version, row => row.Version + 1), stop) > 0, stop);
    }
}
