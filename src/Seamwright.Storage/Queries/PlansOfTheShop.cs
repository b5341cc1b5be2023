using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Seamwright.Storage.Queries;

/// <summary>A kept plan without its answer.</summary>
/// <param name="Id">The plan.</param>
/// <param name="Parent">The plan it was made from; null = the first.</param>
/// <param name="Repair">The repair; null = the whole shop.</param>
/// <param name="InputHash">SHA-256 over everything planned from.</param>
/// <param name="Created">When it was made.</param>
/// <param name="CreatedBy">Who asked for it.</param>
/// <param name="Ready">Ready for paint; null = no plan was possible.</param>
/// <param name="Cost">Total; null = no plan was possible.</param>
/// <param name="Currency">Currency of the total.</param>
public sealed record PlanLine(
    Guid Id, Guid? Parent, string? Repair, string InputHash, Instant Created, string CreatedBy, Instant? Ready, decimal? Cost, string Currency);

/// <summary>Asks for kept plans.</summary>
public static class PlansOfTheShop
{
    /// <summary>The latest plans of a repair, the youngest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="repair">The repair; null = plans of the whole shop.</param>
    /// <param name="most">At most so many, up to <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<PlanLine>> PlansOf(this ShopStore store, string? repair, int most = 20, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        int take = Math.Clamp(most, 1, Page<PlanLine>.MostItems);
        return store.Ask(async db => (await Lines(db.Plans.Where(row => row.Repair == repair)
            .OrderByDescending(row => row.Created).ThenByDescending(row => row.Id).Take(take)).ToListAsync(stop)).ToImmutableArray());
    }

    /// <summary>The youngest plan of each open repair.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableDictionary<string, PlanLine>> PresentPlans(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db =>
        {
            var youngest = db.Repairs.Where(repair => repair.State == RepairState.Open)
                .SelectMany(repair => db.Plans.Where(plan => plan.Repair == repair.Id).OrderByDescending(plan => plan.Created).ThenByDescending(plan => plan.Id).Take(1));
            return (await Lines(youngest).ToListAsync(stop)).ToImmutableDictionary(plan => plan.Repair!);
        });
    }

    /// <summary>The whole answer of a plan as JSON; null where there is no such plan.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The plan.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<string?> PlanAnswer(this ShopStore store, Guid id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => db.Plans.Where(row => row.Id == id).Select(row => row.Answer).SingleOrDefaultAsync(stop));
    }

    private static IQueryable<PlanLine> Lines(IQueryable<Rows.PlanRow> rows) => rows.Select(row => new PlanLine(
        row.Id, row.Parent, row.Repair, row.InputHash, row.Created, row.CreatedBy, row.Ready, row.Cost, row.Currency));
}
