using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Takes paint slots and gives them back.</summary>
public static class TakingSlots
{
    /// <summary>Takes a paint slot for a repair and gives back the one it had; of several who try at once exactly one gets it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="slot">Start of painting.</param>
    /// <param name="repair">The repair.</param>
    /// <param name="by">Who takes it.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<TakeOutcome> TakeSlot(this ShopStore store, Instant slot, string repair, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        try
        {
            return await store.InOne<TakeOutcome>(async db =>
            {
                if (!await db.Repairs.AnyAsync(row => row.Id == repair, stop))
                    return new TakeOutcome.NotThere();
                if (await db.Slots.AsNoTracking().SingleOrDefaultAsync(row => row.At == slot, stop) is { } there)
                    return Outcome(there, repair);
                await db.Slots.Where(row => row.Repair == repair).ExecuteDeleteAsync(stop);
                db.Slots.Add(new() { At = slot, Repair = repair, Taken = store.Now, TakenBy = by });
                await db.SaveChangesAsync(stop);
                return new TakeOutcome.Taken();
            }, stop);
        }
        catch (DbUpdateException e) when (e.InnerException is DbException inner && store.Database.IsTwice(inner))
        {
            return await store.Ask(db => db.Slots.SingleOrDefaultAsync(row => row.At == slot, stop)) is { } there
                ? Outcome(there, repair)
                : new TakeOutcome.NotThere();
        }
    }

    /// <summary>Gives back the slot of a repair.</summary>
    /// <returns>Whether it had one.</returns>
    /// <param name="store">The store.</param>
    /// <param name="repair">The repair.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<bool> GiveSlotBack(this ShopStore store, string repair, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(async db => await db.Slots.Where(row => row.Repair == repair).ExecuteDeleteAsync(stop) > 0, stop);
    }

    private static TakeOutcome Outcome(SlotRow there, string repair) =>
        there.Repair == repair ? new TakeOutcome.Taken() : new TakeOutcome.HeldBy(there.Repair, there.TakenBy, there.Taken);
}
