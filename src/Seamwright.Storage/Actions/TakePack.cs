using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

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

/// <summary>Why a pack leaves the shop.</summary>
public enum PackGone
{
    /// <summary>Nothing is left in it.</summary>
    UsedUp,

    /// <summary>It was thrown away.</summary>
    ThrownAway,

    /// <summary>It was sent back, or given away.</summary>
    SentBack,
}

/// <summary>That a pack leaves the shop.</summary>
/// <param name="Why">Why.</param>
/// <param name="By">Who says so.</param>
/// <param name="Origin">From where: an address, or the console.</param>
public sealed record PackLeaving(PackGone Why, string By, string Origin)
{
    internal string Facts => $$"""{"why":"{{Why switch { PackGone.UsedUp => "used-up", PackGone.ThrownAway => "thrown-away", _ => "sent-back" }}}"}""";
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

    /// <summary>
    /// Says that a pack has left the shop for good. It stays in the store, because records stand on it; who said so and why stands in the audit.
    /// </summary>
    /// <param name="store">The store.</param>
    /// <param name="pack">The pack.</param>
    /// <param name="basedOn">Version that was seen: what somebody else has changed since must not go unseen.</param>
    /// <param name="leaving">Who says so, why and from where.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> PackIsGone(this ShopStore store, string pack, long basedOn, PackLeaving leaving, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(leaving);
        return store.InOne<SaveOutcome>(async db =>
        {
            // Looked at and taken out in one statement: nothing can come between.
            int gone = await db.Packs.Where(row => row.Id == pack && row.Version == basedOn && row.Gone == null).ExecuteUpdateAsync(
                set => set.SetProperty(row => row.Gone, store.Now).SetProperty(row => row.TakenFor, (string?)null)
                    .SetProperty(row => row.TakenBy, (string?)null).SetProperty(row => row.TakenAt, (Instant?)null)
                    .SetProperty(row => row.Changed, store.Now).SetProperty(row => row.ChangedBy, leaving.By)
                    .SetProperty(row => row.Version, row => row.Version + 1), stop);
            if (gone == 0)
                return await Missed(db, pack, stop);
            db.Audit.Add(new AuditRow { Id = store.NewId(), At = store.Now, Who = leaving.By, What = "pack-gone", Subject = pack, Origin = leaving.Origin, Facts = leaving.Facts });
            await db.SaveChangesAsync(stop);
            return new SaveOutcome.Saved(basedOn + 1);
        }, stop);
    }

    /// <summary>Takes back that a pack has left the shop, where that was said by mistake.</summary>
    /// <param name="store">The store.</param>
    /// <param name="pack">The pack.</param>
    /// <param name="basedOn">Version that was seen.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="origin">From where: an address, or the console.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> PackIsBack(this ShopStore store, string pack, long basedOn, string by, string origin, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne<SaveOutcome>(async db =>
        {
            int back = await db.Packs.Where(row => row.Id == pack && row.Version == basedOn && row.Gone != null).ExecuteUpdateAsync(
                set => set.SetProperty(row => row.Gone, (Instant?)null).SetProperty(row => row.Changed, store.Now)
                    .SetProperty(row => row.ChangedBy, by).SetProperty(row => row.Version, row => row.Version + 1), stop);
            if (back == 0)
                return await Missed(db, pack, stop);
            db.Audit.Add(new AuditRow { Id = store.NewId(), At = store.Now, Who = by, What = "pack-back", Subject = pack, Origin = origin, Facts = "{}" });
            await db.SaveChangesAsync(stop);
            return new SaveOutcome.Saved(basedOn + 1);
        }, stop);
    }

    private static async Task<SaveOutcome> Missed(ShopDb db, string pack, CancellationToken stop) =>
        await db.Packs.AsNoTracking().SingleOrDefaultAsync(row => row.Id == pack, stop) is { } there
            ? new SaveOutcome.Overtaken(DocumentSaving.Stored(there), "")
            : new SaveOutcome.NotThere(pack);
}
