using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>The cheapest and the fastest plan in a line each, and what was bought for speed.</summary>
internal static class OtherPlans
{
    public static void Write(Page page, PlanAnswer answer)
    {
        var plan = answer.Recommended!;
        if (answer.Cheapest is null && answer.Fastest is null && answer.Tradeoffs.IsEmpty)
            return;
        page.Title(page.Say("print.others"));
        foreach (var other in new[] { answer.Cheapest, answer.Fastest })
        {
            if (other is not null)
                page.Bullet(Compare(page, plan, other));
        }
        foreach (var tradeoff in answer.Tradeoffs)
            page.Bullet(Text(page, plan, tradeoff));
    }

    // A plan that is equal in time and money is not worth a second look, whatever differs inside.
    private static string Compare(Page page, Plan plan, Plan other)
    {
        var shift = other.ReadyForPaint - plan.ReadyForPaint;
        var cost = other.Cost.Total - plan.Cost.Total;
        if (other.Id == plan.Id || (shift == NodaTime.Duration.Zero && cost.Rounded.Amount == 0 && other.Slot == plan.Slot))
            return page.Say("print.same-plan", other.Aim);

        string text = page.Say("print.other-plan", other.Aim, other.Cost.Total, page.Format.Text(cost, "signed"), other.ReadyForPaint, page.Format.Shift(shift), other.Slot);
        var changes = Changes(page, plan, other).ToList();
        return changes.Count == 0 ? text : text + page.Say("print.other-plan-changes", string.Join(", ", changes));
    }

    private static IEnumerable<string> Changes(Page page, Plan plan, Plan other)
    {
        foreach (var decision in other.Joints)
        {
            var here = plan.Joints.FirstOrDefault(joint => joint.Joint == decision.Joint);
            if (here is not null && (here.Material != decision.Material || here.Heated != decision.Heated))
            {
                string material = decision.Material?.Value ?? page.Say("print.nothing");
                yield return decision.Heated ? page.Say("print.change-heated", decision.Joint, material) : page.Say("print.change", decision.Joint, material);
            }
        }
    }

    private static string Text(Page page, Plan plan, Tradeoff tradeoff)
    {
        string bought = page.Say($"tradeoff.{tradeoff.Kind}", tradeoff.Spent, plan.Slot, tradeoff.Saved);
        return bought + (tradeoff.SlotWithout is { } slot
            ? page.Say("print.without", page.Format.Text(tradeoff.TotalShift, "signed"), slot)
            : page.Say("print.without-slot"));
    }
}
