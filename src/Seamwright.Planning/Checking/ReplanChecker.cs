using System.Collections.Immutable;
using NodaTime;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>
/// Checks a plan made again, without anything the planner uses: facts are as the log says, nothing is planned before now, all the rest holds by
/// minute-by-minute integration from the real ends in the air as it is now known, and the price of moves is what the shop's prices give.
/// </summary>
public static class ReplanChecker
{
    private static readonly StepKind[] Announced =
    [
        StepKind.Prime, StepKind.Bond, StepKind.CleanBond, StepKind.Operation, StepKind.Seal, StepKind.StoneChip, StepKind.Foam, StepKind.Wax, StepKind.Refit, StepKind.FinalCheck,
    ];

    private static readonly StepKind[] OfTheWholeCar = [StepKind.Wax, StepKind.Refit, StepKind.FinalCheck];

    /// <summary>What is wrong; empty where it holds, or where nothing could be planned.</summary>
    /// <param name="replan">The answer.</param>
    /// <param name="log">The log that it answers.</param>
    public static ImmutableArray<Reason> Check(Replan replan, WorkLog log)
    {
        ArgumentNullException.ThrowIfNull(replan);
        ArgumentNullException.ThrowIfNull(log);
        if (replan.Plan is not { } plan)
            return [];
        return [.. Facts(replan, log), .. PlanChecker.Check(replan.Input, plan), .. Again(replan, plan), .. Price(replan, plan)];
    }

    /// <summary>Each end and each start that the log tells stands in the answer as told.</summary>
    private static IEnumerable<Reason> Facts(Replan replan, WorkLog log)
    {
        foreach (var ended in log.Valid.OfType<LogEntry.Ended>())
        {
            if (!replan.Standing.Any(work => work.State is WorkState.Done or WorkState.Lost && work.Step.Kind == ended.Work.Kind && work.Step.End == ended.At && ended.Work.Places.All(work.Step.Places.Contains))
                && !IsSplit(replan, ended))
                yield return Reason.Of("check-fact-changed", ended.Id, ended.At);
        }
        foreach (var work in replan.Standing.Where(work => work.State == WorkState.Done && work.Step.End > replan.Input.Repair.Now))
            yield return Reason.Of("check-done-later", work.Step.Id, work.Step.End);
    }

    /// <summary>A session of which a check took one seam away stands in two parts.</summary>
    private static bool IsSplit(Replan replan, LogEntry.Ended ended) =>
        ended.Work.Places.All(place => replan.Standing.Any(work => work.Step.Kind == ended.Work.Kind && work.Step.End == ended.At && work.Step.Places.Contains(place)));

    /// <summary>What is done is not planned again; only what was lost is.</summary>
    private static IEnumerable<Reason> Again(Replan replan, Plan plan)
    {
        foreach (var work in replan.Standing.Where(work => work.State != WorkState.Lost && work.Step.Kind is StepKind.Seal or StepKind.Bond or StepKind.CleanBond or StepKind.Operation or StepKind.Paint or StepKind.Foam or StepKind.StoneChip))
        {
            foreach (var step in plan.Steps.Where(step => step.Kind == work.Step.Kind && (step.Places.IsEmpty || step.Places.Intersect(work.Step.Places).Any())))
                yield return Reason.Of("check-done-again", step.Id, step.Kind);
        }
    }

    private static IEnumerable<Reason> Price(Replan replan, Plan plan)
    {
        var value = replan.Input.Shop.TimeValue;
        decimal own = replan.Promises.Sum(promise => promise.Price.Amount), works = 0;
        foreach (var step in plan.Steps.Where(step => Announced.Contains(step.Kind)))
        {
            var days = step.Places.IsEmpty || OfTheWholeCar.Contains(step.Kind) ? [Days(replan, step, null)] : step.Places.Select(place => Days(replan, step, place.Value)).ToList();
            works += value.MovedWork.Amount * days.Count(moved => moved);
        }
        decimal hands = replan.Moves.Sum(move => move.Price.Amount) - works;
        bool whole = value.MovedWork.Amount == 0 ? hands == 0 : hands % value.MovedWork.Amount == 0;
        int sessions = plan.Steps.Count(step => Announced.Contains(step.Kind));
        if (hands < 0 || !whole || hands > value.MovedWork.Amount * sessions || replan.PriceOfMoves.Amount != own + works + hands)
            yield return Reason.Of("check-move-price", replan.PriceOfMoves, new Money(own + works, replan.Input.Shop.Currency));
        bool slotMoved = plan.Slot != replan.Before.Slot, later = Day(replan, plan.ReadyForDelivery) > Day(replan, replan.Before.HandOver);
        if (own != value.MovedPromise.Amount * ((slotMoved ? 1 : 0) + (later ? 1 : 0)))
            yield return Reason.Of("check-promise-price", new Money(own, replan.Input.Shop.Currency));
    }

    /// <summary>Whether a step lies on another day than the same work announced for a place that no log entry touches.</summary>
    private static bool Days(Replan replan, Step step, string? place)
    {
        bool Speaks(Step other) => other.Kind == step.Kind && (place is null || other.Places.Any(named => named.Value == place));
        if (replan.Standing.Any(work => work.State != WorkState.Lost && Speaks(work.Step)))
            return false;
        return replan.Before.Steps.FirstOrDefault(other => other.Person is not null && Speaks(other) && !replan.Standing.Any(work => work.Announced == other)) is { } before && Day(replan, before.Start) != Day(replan, step.Start);
    }

    private static LocalDate Day(Replan replan, Instant at) => at.InZone(replan.Input.Shop.Zone).Date;
}
