using System.Globalization;
using NodaTime;
using Seamwright.Planning.Comparing;
using Seamwright.Planning.Tradeoffs;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>What being ready for paint earlier costs: the curve drawn, then each point with what it changes.</summary>
public static class CurvePage
{
    private const string Names = "123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

    /// <summary>Writes the page.</summary>
    public static void Write(Page page, RepairInput input, TradeoffCurve curve)
    {
        if (curve.Points.IsEmpty)
        {
            ConflictList.Write(page, input, new PlanAnswer { Conflicts = curve.Conflicts });
            return;
        }
        Headline.Title(page, input);
        page.Gap();
        page.Paragraph(Summary(page, curve), tone: Tone.Answer);
        if (curve.Points.Length > 1)
            CurveChart.Write(page, input, curve, Names);
        Points(page, curve);
        page.Gap();
        if (curve.RecommendedAt is null && curve.Recommended is { } plan)
            page.Paragraph(page.Say("curve.beside", plan.ReadyForPaint, plan.Slot, plan.Cost.Spent, plan.Cost.Total));
        page.Paragraph(page.Say(curve.IsExact ? "curve.exact" : "curve.not-exact"), tone: Tone.Faint);
        page.Paragraph(page.Say("curve.time-apart"), tone: Tone.Faint);
    }

    private static string Summary(Page page, TradeoffCurve curve)
    {
        var (first, last) = (curve.Points[0].Plan, curve.Points[^1].Plan);
        return curve.Points.Length == 1
            ? page.Say("curve.one", first.ReadyForPaint, page.Format.Text(first.Cost.Spent, "currency"))
            : page.Say("curve.range", curve.Points.Length, first.ReadyForPaint, page.Format.Text(first.Cost.Spent, "currency"), last.ReadyForPaint, page.Format.Text(last.Cost.Spent, "currency"));
    }

    private static void Points(Page page, TradeoffCurve curve)
    {
        page.Title(page.Say("curve.points"));
        var grid = new Grid(page,
            new Column(""), new Column(page.Say("curve.ready"), 0, Right: true), new Column(page.Say("curve.slot"), 0, Right: true),
            new Column(page.Say("curve.spent"), 0, Right: true), new Column(page.Say("curve.total"), 0, Right: true), new Column("", 8));
        for (int i = 0; i < curve.Points.Length; i++)
        {
            var plan = curve.Points[i].Plan;
            bool recommended = i == curve.RecommendedAt;
            grid.Row(
                new Run(Names[i].ToString(CultureInfo.InvariantCulture), Tone.Strong), new Run(page.Format.Moment(plan.ReadyForPaint), Tone.Strong), page.Format.Moment(plan.Slot),
                new Run(page.Format.Text(plan.Cost.Spent), Tone.Strong), page.Format.Text(plan.Cost.Total), new Run(recommended ? page.Say("curve.recommended") : "", Tone.Answer));
            grid.Under(curve.Points[i].FromBefore is { } difference ? Step(page, difference) : page.Say("curve.least-spending"), Tone.Plain);
        }
        grid.Write();
    }

    /// <summary>What a point changes against the one before it, and what that buys.</summary>
    internal static string Step(Page page, PlanDifference difference) =>
        page.Say("curve.step", string.Join(", ", PlanChanges.Of(page.Format, difference)), -difference.ReadyShift, difference.SpentShift);
}
