using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>An answer of the planner to be kept.</summary>
/// <param name="Parent">The plan it was made from; null = the first.</param>
/// <param name="Repair">The repair; null = the whole shop.</param>
/// <param name="InputHash">SHA-256 over everything planned from.</param>
/// <param name="Seed">Seed of the search; null = none was set.</param>
/// <param name="Engine">Version of the program that planned.</param>
/// <param name="AnswerJson">The whole answer.</param>
/// <param name="Ready">Ready for paint; null = no plan is possible.</param>
/// <param name="Cost">Total in <paramref name="Currency"/>; null = no plan is possible.</param>
/// <param name="Currency">Currency of the shop.</param>
public sealed record PlanDraft(
    Guid? Parent, string? Repair, string InputHash, int? Seed, string Engine, string AnswerJson, Instant? Ready, decimal? Cost, string Currency);

/// <summary>Keeps plans.</summary>
public static class KeepingPlans
{
    /// <summary>Keeps a plan for good.</summary>
    /// <returns>Its id.</returns>
    /// <param name="store">The store.</param>
    /// <param name="draft">The plan.</param>
    /// <param name="by">Who asked for it.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<Guid> KeepPlan(this ShopStore store, PlanDraft draft, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(draft);
        return store.InOne(async db =>
        {
            var row = new PlanRow
            {
                Id = store.NewId(),
                Parent = draft.Parent,
                Repair = draft.Repair,
                InputHash = draft.InputHash,
                Seed = draft.Seed,
                Engine = draft.Engine,
                Created = store.Now,
                CreatedBy = by,
                Answer = draft.AnswerJson,
                Ready = draft.Ready,
                Cost = draft.Cost,
                Currency = draft.Currency,
            };
            db.Plans.Add(row);
            await db.SaveChangesAsync(stop);
            return row.Id;
        }, stop);
    }
}
