using System.Collections.Immutable;
using NodaTime;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>
/// Checks a shop's plan without anything the planner uses: every vehicle's plan by itself, then that nobody and nothing is in two places at
/// once and that no pack gives more than it holds.
/// </summary>
public static class ShopChecker
{
    /// <summary>What is wrong with a shop's plan.</summary>
    /// <returns>Empty where it holds.</returns>
    public static ImmutableArray<Reason> Check(ShopPlan shop)
    {
        ArgumentNullException.ThrowIfNull(shop);
        var planned = shop.Vehicles.Where(vehicle => vehicle.Plan is not null).ToList();
        return
        [
            .. planned.SelectMany(vehicle => PlanChecker.Check(vehicle.Input, vehicle.Plan!)),
            .. People(planned),
            .. Equipment(planned),
            .. Bays(planned),
            .. Packs(planned),
        ];
    }

    private static IEnumerable<Reason> People(List<VehiclePlan> planned)
    {
        var busy = planned
            .SelectMany(vehicle => vehicle.Plan!.Steps.Where(step => step.Person is not null && !(step.Kind == StepKind.StoneChip && step.HeatTo is not null))
                .Select(step => (Vehicle: vehicle.Input.Repair.Id, Step: step)))
            .GroupBy(item => item.Step.Person!);
        foreach (var person in busy)
        {
            var inOrder = person.OrderBy(item => item.Step.Start).ToList();
            for (int i = 1; i < inOrder.Count; i++)
            {
                if (inOrder[i].Step.Start < inOrder[i - 1].Step.End && inOrder[i].Step.End > inOrder[i].Step.Start && inOrder[i].Vehicle != inOrder[i - 1].Vehicle)
                    yield return Reason.Of("check-two-vehicles", person.Key, inOrder[i - 1].Vehicle, inOrder[i].Vehicle, inOrder[i].Step.Start);
            }
        }
    }

    private static IEnumerable<Reason> Equipment(List<VehiclePlan> planned)
    {
        var booth = planned.SelectMany(vehicle => vehicle.Plan!.Steps.Where(step => step.Kind == StepKind.Paint || step is { Kind: StepKind.StoneChip, HeatTo: not null })
            .Select(step => (vehicle.Input.Repair.Id, step.Start, step.End)));
        foreach (var at in MoreThan(1, booth))
            yield return Reason.Of("check-booth-shared", at);
        var lamps = planned.SelectMany(vehicle => vehicle.Plan!.Steps.Where(step => step.Kind == StepKind.Lamp).Select(step => (vehicle.Input.Repair.Id, step.Start, step.End)));
        foreach (var at in MoreThan(planned.Count == 0 ? 0 : planned[0].Input.Shop.Lamps?.Count ?? 0, lamps))
            yield return Reason.Of("check-lamps-shared", at);
    }

    /// <summary>A vehicle stands in a bay from the first work on it to paint, and from the end of paint to the last work.</summary>
    private static IEnumerable<Reason> Bays(List<VehiclePlan> planned)
    {
        if (planned.Count == 0 || planned[0].Input.Shop.Bays is not { } bays)
            yield break;
        var stays = new List<(string, Instant, Instant)>();
        foreach (var vehicle in planned)
        {
            var paint = vehicle.Plan!.Steps.First(step => step.Kind == StepKind.Paint);
            var work = vehicle.Plan.Steps.Where(step => step.Person is not null && step.Kind != StepKind.Paint).ToList();
            if (work.Exists(step => step.End <= paint.Start))
                stays.Add((vehicle.Input.Repair.Id, work.Min(step => step.Start), paint.Start));
            if (work.Exists(step => step.Start >= paint.End))
                stays.Add((vehicle.Input.Repair.Id, paint.End, work.Max(step => step.End)));
        }
        foreach (var at in MoreThan(bays, stays))
            yield return Reason.Of("check-bays-shared", bays, at);
    }

    private static IEnumerable<Reason> Packs(List<VehiclePlan> planned)
    {
        if (planned.Count == 0)
            yield break;
        var stock = planned[0].Input.Stock;
        foreach (var uses in planned.SelectMany(vehicle => vehicle.Plan!.PackUses).Where(use => !use.Ordered).GroupBy(use => use.Pack))
        {
            var pack = stock.Packs.FirstOrDefault(candidate => candidate.Id == uses.Key);
            var volume = uses.Aggregate(Volume.Zero, (sum, use) => sum + use.Amount);
            var strip = uses.Aggregate(Length.Zero, (sum, use) => sum + use.StripLength);
            if (pack is null || volume.Millilitres > pack.Left.Millilitres + 1e-4 || strip.Millimetres > pack.StripLeft.Millimetres + 1e-4)
                yield return Reason.Of("check-pack-shared", uses.Key);
        }
    }

    /// <summary>Moments at which more than so many of the stretches begin to overlap.</summary>
    private static IEnumerable<Instant> MoreThan(int count, IEnumerable<(string Vehicle, Instant From, Instant To)> stretches)
    {
        var all = stretches.ToList();
        return all.Where(one => one.From < one.To && all.Count(other => other.From <= one.From && one.From < other.To) > count).Select(one => one.From).Distinct();
    }
}
