using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>What to order, by when, for what.</summary>
internal static class OrderList
{
    public static void Write(Page page, Plan plan)
    {
        if (plan.Orders.IsEmpty)
            return;
        page.Title(page.Say("print.orders"));
        var grid = new Grid(page,
            new Column(page.Say("print.what"), 12), new Column(page.Say("print.price"), 0, Right: true), new Column(page.Say("print.order-by"), 9),
            new Column(page.Say("print.arrives"), 9), new Column(page.Say("print.for"), 8));
        foreach (var order in plan.Orders)
        {
            string what = order.What is { } material ? page.Say("print.packs-of", order.Count, material) : page.Say("print.nozzles", order.Count);
            grid.Row(
                new Run(what, Tone.Strong), page.Format.Text(order.Price), new Run(page.Format.Moment(order.OrderBy), Tone.Strong),
                page.Format.Moment(order.Arrives), order.For.IsEmpty ? "" : page.Format.List(order.For.Select(place => (object)place)));
        }
        grid.Write();
    }
}
