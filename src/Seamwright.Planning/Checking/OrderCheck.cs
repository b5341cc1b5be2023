using NodaTime;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>What is ordered can be delivered, is ordered in the supplier's hours, and is there before it is used.</summary>
internal static class OrderCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var order in plan.Plan.Orders)
        {
            object what = order.What is { } material ? material : "nozzles";
            if (plan.Shop.Supplier is not { } supplier || supplier.Lacks.Contains(order.What?.Value ?? "nozzle"))
            {
                yield return Reason.Of("check-cannot-deliver", what);
                continue;
            }
            var now = plan.Repair.Now;
            var sent = order.Arrives - supplier.DeliveryTime;
            if (sent < now || sent < supplier.ClosedUntil || !IsOpen(sent) || order.OrderBy < now || !IsOpen(order.OrderBy) || order.OrderBy < sent)
                yield return Reason.Of("check-order-hours", what, order.OrderBy);
            if (order.What is { } id)
            {
                var uses = plan.Plan.PackUses.Where(use => use.Ordered && use.Material == id && plan.Steps.Any(step => step.Id == use.StepId)).ToList();
                if (uses.Select(use => use.Pack).Distinct().Count() > order.Count)
                    yield return Reason.Of("check-ordered-too-few", id, order.Count);
                foreach (var step in uses.Select(use => plan.Steps.First(step => step.Id == use.StepId)).Where(step => step.Start < order.Arrives))
                    yield return Reason.Of("check-used-before-arrival", step.Id, id, order.Arrives);
                var first = plan.Steps.Where(step => uses.Exists(use => use.StepId == step.Id)).Select(step => (Instant?)step.Start).Min();
                if (order.OrderBy + supplier.DeliveryTime > first)
                    yield return Reason.Of("check-order-late", id, order.OrderBy);
            }
            var price = order.What is { } sheet ? plan.Sheets[sheet].Pack.Price * order.Count : plan.Shop.Amounts.NozzlePrice * order.Count;
            if (order.Price.Rounded != price.Rounded)
                yield return Reason.Of("check-order-price", what, price);

            bool IsOpen(Instant at)
            {
                var local = at.InZone(plan.Shop.Zone);
                return supplier.Days.Contains(local.DayOfWeek) && local.TimeOfDay >= supplier.From && local.TimeOfDay <= supplier.To;
            }
        }
        foreach (var use in plan.Plan.PackUses.Where(use => use.Ordered && !plan.Plan.Orders.Any(order => order.What == use.Material)))
            yield return Reason.Of("check-not-ordered", use.StepId, use.Material);
    }
}
