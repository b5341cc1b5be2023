using System.Collections.Immutable;
using NodaTime;
using Seamwright.Planning.Conflicts;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>
/// Plans the rest anew when facts changed. What is done or under way stands; what was announced keeps its day and person unless moving it is
/// worth its stated price; and each move names the entry without which it would not be.
/// </summary>
public static class Replanner
{
    /// <summary>Answers a log. Pure: equal inputs give the equal answer.</summary>
    /// <param name="input">The repair as it was when the plan was made.</param>
    /// <param name="before">The plan that people work by.</param>
    /// <param name="log">What happened since.</param>
    /// <param name="now">Moment from which is planned; null = the last entry, or the repair's own now where that is later.</param>
    /// <param name="options">How to search; null = defaults.</param>
    public static Replan Answer(RepairInput input, AnnouncedPlan before, WorkLog log, Instant? now = null, PlanOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(log);
        var asked = (options ?? new PlanOptions()) with { Alternatives = false, ParentId = before.Id };
        var entries = log.Valid;
        var at = now ?? entries.Select(entry => entry.At).Append(input.Repair.Now).Max();
        var standing = Standing.Of(input, before, log.ContentHash, entries, at);
        var answer = new Replan { Before = before, Input = standing.Input, Standing = standing.Works, Placed = standing.Placed, SpentSoFar = standing.Spent, Problems = standing.Problems };
        if (!standing.Problems.IsEmpty)
            return answer;

        var planning = new PlanningCase(standing.Input);
        if (Search(planning, asked, standing) is not { } best)
            return answer with { Conflicts = ConflictFinder.Find(planning, asked) };
        var plan = new PlanReader(planning, asked).Read(best, PlanAim.Recommended);
        var promises = Promises(standing.Input, before, plan);
        var (moves, stays) = MoveReader.Compare(standing.Input, standing.Announced, plan);
        var causes = new MoveCauses(entries, standing, without => Counterfactual(input, before, log, without, at, asked));
        moves = causes.Explain(moves);
        return answer with
        {
            Plan = plan,
            Moves = moves,
            Stays = stays,
            Promises = promises,
            PriceOfMoves = moves.Select(move => move.Price).Concat(promises.Select(promise => promise.Price)).Aggregate(new Money(0, input.Shop.Currency), (sum, price) => sum + price),
        };
    }

    private static Found? Search(PlanningCase planning, PlanOptions options, Standing standing) =>
        new PlanSearch(planning, options).Best(Variation.Recommended with { Announced = standing.Announced });

    /// <summary>The plan as it would be without some entries; null where there would be none.</summary>
    private static (Standing Standing, Plan Plan)? Counterfactual(RepairInput input, AnnouncedPlan before, WorkLog log, IReadOnlyCollection<LogEntry> without, Instant now, PlanOptions options)
    {
        ImmutableArray<LogEntry> entries = [.. log.Valid.Where(entry => !without.Contains(entry))];
        var standing = Standing.Of(input, before, log.ContentHash, entries, now);
        if (!standing.Problems.IsEmpty)
            return null;
        var planning = new PlanningCase(standing.Input);
        return Search(planning, options, standing) is { } found ? (standing, new PlanReader(planning, options).Read(found, PlanAim.Recommended)) : null;
    }

    private static ImmutableArray<PromiseChange> Promises(RepairInput input, AnnouncedPlan before, Plan plan)
    {
        var price = input.Shop.TimeValue.MovedPromise;
        var none = new Money(0, input.Shop.Currency);
        bool slotKept = plan.Slot == before.Slot;
        bool dayKept = plan.ReadyForDelivery.InZone(input.Shop.Zone).Date <= before.HandOver.InZone(input.Shop.Zone).Date;
        return
        [
            new PromiseChange(true, before.Slot, plan.Slot, slotKept, slotKept ? none : none + price),
            new PromiseChange(false, before.HandOver, plan.ReadyForDelivery, dayKept, dayKept ? none : none + price),
        ];
    }
}
