using System.Collections.Immutable;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>Which pack, which lot, how much of it, and what is left until when.</summary>
internal static class PickList
{
    public static void Write(Page page, Plan plan)
    {
        if (plan.PackUses.IsEmpty)
            return;
        page.Title(page.Say("print.picks"));
        var grid = new Grid(page,
            new Column(page.Say("print.step")), new Column(page.Say("print.pack"), 12), new Column(page.Say("print.take"), 9),
            new Column(page.Say("print.left"), 12), new Column(page.Say("print.for"), 8));
        foreach (var use in plan.PackUses)
        {
            string lot = use.Ordered ? page.Say("print.ordered") : use.Lot.Length > 0 ? page.Say("print.lot", use.Lot) : "";
            grid.Row(
                new Run(use.StepId, Tone.Faint), new Run(Join(" · ", use.Pack.Value, use.Material.Value, lot), Tone.Strong),
                Join(" + ", Amount(page, use.Amount, use.StripLength), use.Nozzles > 0 ? page.Say("print.nozzles", use.Nozzles) : ""),
                Left(page, use), page.Format.List(Places(plan, use.StepId).Select(place => (object)place)));
        }
        grid.Write();
    }

    private static string Left(Page page, PackUse use)
    {
        string amount = Amount(page, use.Left, use.StripLeft);
        if (amount.Length == 0)
            return page.Say("print.used-up");
        return use.LeftUsableUntil is { } until ? page.Say("print.left-until", amount, page.Format.Until(until)) : amount;
    }

    private static string Amount(Page page, Volume volume, Length strip) =>
        volume > Volume.Zero ? page.Format.Text(volume) : strip > Length.Zero ? page.Format.Text(strip) : "";

    private static ImmutableArray<PlaceId> Places(Plan plan, string stepId) =>
        plan.Steps.FirstOrDefault(step => step.Id == stepId)?.Places ?? [];

    private static string Join(string between, params ReadOnlySpan<string> parts)
    {
        string text = "";
        foreach (string part in parts)
            text = text.Length == 0 ? part : part.Length == 0 ? text : text + between + part;
        return text;
    }
}
