using NodaTime;
using Seamwright.Planning.Comparing;
using Seamwright.Planning.Suppositions;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>What would follow from what is supposed: the difference to the plan as things stand.</summary>
public static class SupposePage
{
    // Joints whose times alone are moved, told one by one, are noise beyond this.
    private const int MostMoved = 12;

    /// <summary>Writes the page.</summary>
    /// <param name="page">The page.</param>
    /// <param name="input">The repair as it stands.</param>
    /// <param name="answer">The answer, without problems.</param>
    /// <param name="path">How the repair was named, for the command that tells more.</param>
    public static void Write(Page page, RepairInput input, WhatIfAnswer answer, string path)
    {
        Headline.Title(page, input);
        page.Gap();
        foreach (var supposition in answer.Supposed)
            page.Paragraph(page.Format.Sentence(supposition.InWords), page.Say("suppose.lead"), leadTone: Tone.Strong);
        page.Gap();
        if (answer.Then is not { } then)
            None(page, answer);
        else if (answer.Difference is { } difference)
            Compare(page, input, answer.Input!, difference);
        else
            First(page, then);
        Link(page, answer, path);
    }

    /// <summary>No plan as supposed: the rule that refuses it, or the facts that clash.</summary>
    private static void None(Page page, WhatIfAnswer answer)
    {
        foreach (var refusal in answer.Refused)
        {
            page.Line(new Run(page.Say("suppose.refused", refusal.Joint, refusal.Material), Tone.Alert));
            foreach (var verdict in refusal.Against)
                page.Paragraph($"{page.Format.Sentence(verdict.Reason)} [{verdict.Source}]", $" {page.Format.Word(verdict.Kind)}: ", leadTone: Tone.Strong);
        }
        if (!answer.Conflicts.IsEmpty)
        {
            page.Line(new Run(page.Say("print.no-plan"), Tone.Alert));
            ConflictList.Write(page, answer.Conflicts);
        }
        page.Gap();
        if (answer.Present is { } present)
            page.Paragraph(page.Say("suppose.stands", present.ReadyForPaint, present.Slot, page.Format.Text(present.Cost.Total, "currency")));
        else
            page.Paragraph(page.Say("suppose.no-plan-either"));
    }

    /// <summary>A plan where there was none.</summary>
    private static void First(Page page, Plan then)
    {
        page.Paragraph(page.Say("suppose.now-possible", then.ReadyForPaint, then.Slot, page.Format.Text(then.Cost.Total, "currency")), tone: Tone.Answer);
        Headline.WaitsFor(page, then);
    }

    private static void Compare(Page page, RepairInput input, RepairInput supposed, PlanDifference difference)
    {
        bool asGood = difference.ReadyShift == Duration.Zero && difference.CostShift.Amount == 0 && !difference.IsOtherSlot && difference.DeliveryShift == Duration.Zero;
        if (asGood)
            page.Paragraph(page.Say(difference.Joints.IsEmpty ? "suppose.nothing" : "suppose.as-good"), tone: Tone.Answer);
        else
            page.Paragraph(page.Say("suppose.both", Ready(page, difference), Cost(page, difference)), tone: Tone.Answer);
        page.Paragraph(Slot(page, input, supposed, difference), tone: Missed(supposed, difference.After) ? Tone.Alert : Tone.Strong);
        if (difference.After.ReadyForDelivery > input.Repair.Promise)
            page.Paragraph(page.Say("print.delivery-late", difference.After.ReadyForDelivery, difference.After.ReadyForDelivery - input.Repair.Promise, input.Repair.Promise), tone: Tone.Alert);
        Headline.WaitsFor(page, difference.After);
        if (!asGood)
            Figures(page, difference);
        Changes(page, difference);
    }

    private static string Ready(Page page, PlanDifference difference)
    {
        var (was, isNow) = (difference.Before.ReadyForPaint, difference.After.ReadyForPaint);
        return difference.ReadyShift == Duration.Zero ? page.Say("suppose.ready-same", isNow)
            : difference.ReadyShift > Duration.Zero ? page.Say("suppose.ready-later", difference.ReadyShift, isNow, was)
            : page.Say("suppose.ready-earlier", -difference.ReadyShift, isNow, was);
    }

    private static string Cost(Page page, PlanDifference difference)
    {
        var shift = difference.CostShift;
        var total = difference.After.Cost.Total + difference.SlotMoved;
        return shift.Amount == 0 ? page.Say("suppose.cost-same", page.Format.Text(total, "currency"))
            : shift.Amount > 0 ? page.Say("suppose.dearer", shift, page.Format.Text(total, "currency"), difference.Before.Cost.Total)
            : page.Say("suppose.cheaper", -shift, page.Format.Text(total, "currency"), difference.Before.Cost.Total);
    }

    // Slots are ascending; the first is the wanted one.
    private static bool Missed(RepairInput input, Plan plan) => plan.Slot > input.Repair.PaintSlots[0];

    private static string Slot(Page page, RepairInput input, RepairInput supposed, PlanDifference difference)
    {
        var after = difference.After;
        return (Missed(input, difference.Before), Missed(supposed, after)) switch
        {
            (false, false) => page.Say("suppose.slot-still-made", after.Slot, after.Slot - after.ReadyForPaint),
            (true, false) => page.Say("suppose.slot-now-made", after.Slot, after.Slot - after.ReadyForPaint),
            (false, true) => page.Say("suppose.slot-now-missed", supposed.Repair.PaintSlots[0], after.Slot),
            (true, true) => page.Say("suppose.slot-still-missed", supposed.Repair.PaintSlots[0], after.Slot),
        };
    }

    /// <summary>Both plans side by side.</summary>
    private static void Figures(Page page, PlanDifference difference)
    {
        var (before, after) = (difference.Before, difference.After);
        page.Title(page.Say("suppose.figures"));
        var grid = new Grid(page, new Column(""), new Column(page.Say("suppose.now"), 0, Right: true), new Column(page.Say("suppose.then"), 0, Right: true), new Column(page.Say("suppose.shift"), 0, Right: true));
        grid.Row(page.Say("suppose.row-ready"), page.Format.Moment(before.ReadyForPaint), new Run(page.Format.Moment(after.ReadyForPaint), Tone.Strong), Shift(page, difference.ReadyShift));
        grid.Row(page.Say("suppose.row-slot"), page.Format.Moment(before.Slot), new Run(page.Format.Moment(after.Slot), Tone.Strong), Shift(page, after.Slot - before.Slot));
        grid.Row(page.Say("suppose.row-delivery"), page.Format.Moment(before.ReadyForDelivery), new Run(page.Format.Moment(after.ReadyForDelivery), Tone.Strong), Shift(page, difference.DeliveryShift));
        grid.Row(page.Say("suppose.row-total"), page.Format.Text(before.Cost.Total), new Run(page.Format.Text(after.Cost.Total + difference.SlotMoved), Tone.Strong), page.Format.Text(difference.CostShift, "signed"));
        grid.Write();
        var parts = CostParts.Differences(page.Format, before.Cost, after.Cost).ToList();
        if (difference.SlotMoved.Rounded.Amount != 0)
            parts.Add(page.Say("suppose.slot-itself", page.Format.Text(difference.SlotMoved, "signed")));
        if (parts.Count > 0)
            page.Paragraph(page.Say("suppose.cost-parts", string.Join(", ", parts)), " ", Tone.Faint);
    }

    private static string Shift(Page page, Duration shift) => shift == Duration.Zero ? page.Say("suppose.same") : page.Format.Shift(shift);

    private static void Changes(Page page, PlanDifference difference)
    {
        if (difference.Joints.IsEmpty && difference.People.IsEmpty && difference.NewlyWarmed.IsEmpty && difference.NoLongerWarmed.IsEmpty)
            return;
        page.Title(page.Say("suppose.changes"));
        foreach (string change in PlanChanges.Of(page.Format, difference))
            page.Bullet(change);
        if (difference.Joints.IsEmpty)
            return;
        page.Gap();
        var grid = new Grid(page, new Column(""), new Column(page.Say("print.material"), 6), new Column(page.Say("suppose.applied"), 11), new Column(page.Say("suppose.ready"), 9));
        foreach (var joint in difference.Joints.OrderByDescending(joint => joint.IsOtherMaterial).Take(MostMoved))
        {
            string after = joint.After.Material?.Value ?? page.Say("print.nothing");
            string material = joint.IsOtherMaterial ? (joint.Before.Material?.Value ?? page.Say("print.nothing")) + page.Marks.Then + after : after;
            grid.Row(new Run(joint.Joint.Value, Tone.Strong), new Run(material, joint.IsOtherMaterial ? Tone.Strong : Tone.Plain), Change(page, Start(page, joint.Before), Start(page, joint.After)), Change(page, At(page, joint.Before.Ready), At(page, joint.After.Ready)));
        }
        grid.Write();
        if (difference.Joints.Length > MostMoved)
            page.Paragraph(page.Say("suppose.more-joints", difference.Joints.Length - MostMoved), " ", Tone.Faint);
    }

    private static string Start(Page page, JointPlan joint) => joint.Applied is { } applied ? page.Format.Moment(applied.Start) : "";

    private static string At(Page page, Instant? moment) => moment is { } at ? page.Format.Moment(at) : "";

    private static string Change(Page page, string before, string after) => before == after ? after : $"{before}{page.Marks.Then}{after}".Trim();

    private static void Link(Page page, WhatIfAnswer answer, string path)
    {
        string joint = answer.Supposed.OfType<JointTakes>().Select(takes => takes.Joint.Value).FirstOrDefault()
            ?? answer.Difference?.Joints.FirstOrDefault(changed => changed.IsOtherMaterial)?.Joint.Value ?? "";
        if (joint.Length == 0)
            return;
        page.Gap();
        page.Paragraph(page.Say("suppose.link", path, joint), tone: Tone.Faint);
    }
}
