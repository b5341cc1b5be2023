using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Something that happened, to be written into the work log.</summary>
/// <param name="Id">Made by whoever writes it; delivering it again changes nothing.</param>
/// <param name="At">When it happened, by the writer's clock.</param>
/// <param name="Offset">The writer's distance from UTC.</param>
/// <param name="Who">Who did it.</param>
/// <param name="Kind">Kind of fact, for example <c>bead-applied</c>.</param>
/// <param name="Repair">The repair; null = the shop.</param>
/// <param name="FactsJson">What happened, as JSON.</param>
public sealed record WorkFact(Guid Id, Instant At, Offset Offset, string Who, string Kind, string? Repair, string FactsJson);

/// <summary>What became of an entry.</summary>
public abstract record AppendOutcome
{
    private AppendOutcome()
    {
    }

    /// <summary>It stands in the log.</summary>
    /// <param name="Id">The entry.</param>
    /// <param name="Sequence">Its place, from 1.</param>
    /// <param name="Repeated">Whether it had been delivered before.</param>
    public sealed record Appended(Guid Id, long Sequence, bool Repeated) : AppendOutcome;

    /// <summary>Another entry has this id; nothing of the delivery was written.</summary>
    /// <param name="Id">The id.</param>
    public sealed record OtherWithThisId(Guid Id) : AppendOutcome;
}

/// <summary>Writes the work log.</summary>
public static class AppendingWork
{
    /// <summary>Appends entries in their order, all or none.</summary>
    /// <returns>An outcome for each entry in the same order; a single <see cref="AppendOutcome.OtherWithThisId"/> where nothing was written.</returns>
    /// <param name="store">The store.</param>
    /// <param name="facts">The entries.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<AppendOutcome>> AppendWork(this ShopStore store, IReadOnlyList<WorkFact> facts, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(facts);
        return store.InOne(db => Append(store, db, facts, stop), stop);
    }

    /// <summary>Appends one entry.</summary>
    /// <param name="store">The store.</param>
    /// <param name="fact">The entry.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<AppendOutcome> AppendWork(this ShopStore store, WorkFact fact, CancellationToken stop = default) =>
        (await store.AppendWork([fact], stop))[0];

    /// <summary>Appends entries in a transaction of somebody else's.</summary>
    internal static async Task<ImmutableArray<AppendOutcome>> Append(ShopStore store, ShopDb db, IReadOnlyList<WorkFact> facts, CancellationToken stop)
    {
        await store.Database.HoldLog(db, stop);
        var ids = facts.Select(fact => fact.Id).ToList();
        var known = await db.WorkLog.AsNoTracking().Where(row => ids.Contains(row.Id)).ToDictionaryAsync(row => row.Id, stop);
        var last = await db.WorkLog.AsNoTracking().OrderByDescending(row => row.Sequence)
            .Select(row => new { row.Sequence, row.Hash }).FirstOrDefaultAsync(stop);
        (long sequence, string hash) = last is null ? (0, WorkChain.Beginning) : (last.Sequence, last.Hash);

        var outcomes = ImmutableArray.CreateBuilder<AppendOutcome>(facts.Count);
        foreach (var fact in facts)
        {
            if (known.TryGetValue(fact.Id, out var there))
            {
                if (!IsSame(fact, there))
                    return [new AppendOutcome.OtherWithThisId(fact.Id)];
                outcomes.Add(new AppendOutcome.Appended(fact.Id, there.Sequence, Repeated: true));
                continue;
            }

            var row = RowOf(fact, ++sequence, hash, store.Now);
            hash = row.Hash;
            known.Add(row.Id, row);
            db.WorkLog.Add(row);
            outcomes.Add(new AppendOutcome.Appended(fact.Id, sequence, Repeated: false));
        }

        await db.SaveChangesAsync(stop);
        return outcomes.ToImmutable();
    }

    internal static WorkRow RowOf(WorkFact fact, long sequence, string previous, Instant recorded)
    {
        var row = new WorkRow
        {
            Sequence = sequence,
            Id = fact.Id,
            At = Whole(fact.At),
            OffsetSeconds = fact.Offset.Seconds,
            Recorded = recorded,
            Who = fact.Who,
            Kind = fact.Kind,
            Repair = fact.Repair,
            Facts = fact.FactsJson,
            Previous = previous,
            Hash = "",
        };
        return row.WithHash(WorkChain.HashOf(row));
    }

    private static bool IsSame(WorkFact fact, WorkRow row) =>
        row.At == Whole(fact.At) && row.OffsetSeconds == fact.Offset.Seconds && row.Who == fact.Who && row.Kind == fact.Kind
        && row.Repair == fact.Repair && row.Facts == fact.FactsJson;

    // Both databases keep microseconds; a finer moment would not come back as it was hashed.
    private static Instant Whole(Instant at)
    {
        long ticks = at.ToUnixTimeTicks();
        return Instant.FromUnixTimeTicks(ticks - (ticks % 10 + 10) % 10);
    }
}
