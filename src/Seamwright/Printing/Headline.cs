using NodaTime;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>The answer in a few lines: ready when, which slot, what it costs, what the vehicle waits for.</summary>
internal static class Headline
{
    public static void Write(Page page, RepairInput input, Plan plan)
    {
        var repair = input.Repair;
        Title(page, input);
        page.Gap();
        string ready = page.Say("print.ready", plan.ReadyForPaint);
        string slot = page.Say("print.slot", plan.Slot, plan.Slot - plan.ReadyForPaint);
        if (Letters.Width(ready) + Letters.Width(slot) <= page.Width)
            page.Line(new Run(ready, Tone.Answer), new Run(slot, Tone.Strong));
        else
            TwoLines(page, ready, slot.Trim());

        // Slots are ascending; the first is the wanted one.
        if (!repair.PaintSlots.IsEmpty && plan.Slot > repair.PaintSlots[0])
            page.Paragraph(page.Say("print.slot-missed", repair.PaintSlots[0]), tone: Tone.Alert);

        var late = plan.ReadyForDelivery - repair.Promise;
        string handOver = late > Duration.Zero
            ? page.Say("print.delivery-late", plan.ReadyForDelivery, late, repair.Promise)
            : page.Say("print.delivery-early", plan.ReadyForDelivery, -late, repair.Promise);
        page.Paragraph(handOver, tone: late > Duration.Zero ? Tone.Alert : Tone.Plain);

        page.Paragraph(page.Say("print.total", page.Format.Text(plan.Cost.Total, "currency"), Parts(page, plan), Proof(page, plan)));
        WaitsFor(page, plan);
    }

    /// <summary>Which repair, in which shop, seen from when.</summary>
    public static void Title(Page page, RepairInput input)
    {
        page.Paragraph(page.Say("print.repair", input.Repair.Name, input.Repair.Id), tone: Tone.Title);
        page.Paragraph(page.Say("print.from", input.Shop.Name, page.Format.DateAndClock(input.Repair.Now)), tone: Tone.Faint);
    }

    private static void TwoLines(Page page, string ready, string slot)
    {
        page.Paragraph(ready, tone: Tone.Answer);
        page.Paragraph(slot, tone: Tone.Strong);
    }

    private static string Proof(Page page, Plan plan)
    {
        if (plan.ProvenOptimal)
            return page.Say("print.proven");
        decimal total = plan.Cost.Total.Amount;
        return total <= 0
            ? page.Say("print.not-proven")
            : page.Say("print.gap", page.Format.Number((double)((total - plan.LowerBound.Amount) / total) * 100, 1));
    }

    private static string Parts(Page page, Plan plan) => page.Say("print.cost-parts", CostParts.Sum(page.Format, plan.Cost));

    /// <summary>What the car waits for, from first to last.</summary>
    public static void WaitsFor(Page page, Plan plan)
    {
        if (plan.HeldUpBy.IsEmpty)
            page.Paragraph(page.Say("print.waits-for-nothing"));
        else
            page.Paragraph(string.Join(page.Marks.Then, plan.HeldUpBy.Select(holdup => Text(page, holdup))), page.Say("print.waits-for"), leadTone: Tone.Strong);
    }

    private static string Text(Page page, Holdup holdup) =>
        $"{Sentence.Phrase(page.Format.Sentence(holdup.Reason))} ({page.Format.Between(holdup.From, holdup.To)})";
}
