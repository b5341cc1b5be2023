using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>All vehicles of a shop: who is painted when, who is late, what sharing the shop costs, and how sure the total is.</summary>
internal static class ShopPage
{
    public static void Write(Page page, ShopPlan shop)
    {
        var planned = shop.Vehicles.Where(vehicle => vehicle.Plan is not null).ToList();
        page.Line(new Run(page.Say("shop.headline", planned.Count, shop.Vehicles.Length, shop.Total), Tone.Answer));
        page.Paragraph(shop.ProvenOptimal
            ? page.Say("shop.proven")
            : page.Say("shop.gap", shop.LowerBound, (100 * shop.Gap).ToString("0.0", page.Format.Notation.Culture)));
        int late = planned.Count(vehicle => vehicle.IsLate);
        page.Paragraph(late == 0 ? page.Say("shop.all-in-time") : page.Say("shop.late", late), tone: late == 0 ? Tone.Plain : Tone.Alert);

        page.Title(page.Say("shop.vehicles"));
        foreach (var vehicle in planned.OrderBy(vehicle => vehicle.Plan!.Slot))
        {
            var plan = vehicle.Plan!;
            page.Bullet(page.Say(
                vehicle.IsLate ? "shop.vehicle-late" : "shop.vehicle",
                vehicle.Input.Repair.Id, plan.Steps.First().Start, plan.ReadyForPaint, plan.Slot, plan.ReadyForDelivery, vehicle.Input.Repair.Promise, plan.Cost.Total),
                vehicle.IsLate ? Tone.Alert : Tone.Plain);
            page.Paragraph(Materials(page, plan), "   ", Tone.Faint);
            if (vehicle.PriceOfSharing is { Rounded.Amount: > 0 } price)
                page.Paragraph(page.Say("shop.price-of-sharing", price), "   ", Tone.Faint);
        }

        foreach (var vehicle in shop.Vehicles.Where(vehicle => vehicle.Plan is null))
        {
            page.Title(page.Say(vehicle.Conflicts.IsEmpty ? "shop.no-room" : "shop.no-plan", vehicle.Input.Repair.Id));
            foreach (var fact in vehicle.Conflicts.SelectMany(conflict => conflict.Facts))
                page.Bullet((fact.Place is { } place ? $"{place.Value}: " : "") + page.Format.Sentence(fact.Reason));
        }

        page.Title(page.Say("shop.people"));
        foreach (var person in planned.SelectMany(vehicle => vehicle.Plan!.Steps.Select(step => (vehicle.Input.Repair.Id, Step: step))).Where(item => item.Step.Person is not null).GroupBy(item => item.Step.Person!).OrderBy(group => group.Key, StringComparer.Ordinal))
        {
            page.Paragraph(string.Join(", ", Turns([.. person.OrderBy(item => item.Step.Start)], page)), $" {person.Key}: ");
        }
    }

    /// <summary>A person's vehicles one after the other, each once a stay.</summary>
    private static IEnumerable<string> Turns(List<(string Id, Step Step)> steps, Page page)
    {
        for (int i = 0; i < steps.Count; i++)
        {
            if (i == 0 || steps[i].Id != steps[i - 1].Id)
                yield return page.Say("shop.turn", steps[i].Step.Start, steps[i].Id);
        }
    }

    private static string Materials(Page page, Plan plan) => string.Join(
        " · ",
        plan.Joints.Where(joint => joint.Material is not null).GroupBy(joint => joint.Material!.Value.Value)
            .Select(group => page.Say("shop.material", group.Key, string.Join(", ", group.Select(joint => joint.Joint.Value)))));
}
