using NodaTime;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>What changes against the plan people work by: promises first, then what moves and why, what stays, what is done, and the rest of the work.</summary>
public static class ReplanPage
{
    /// <summary>Writes the page.</summary>
    /// <param name="page">Where to.</param>
    /// <param name="replan">The answer.</param>
    /// <param name="isOtherInput">True where the files are not those from which the plan was made.</param>
    public static void Write(Page page, Replan replan, bool isOtherInput)
    {
        if (replan.Problems.IsEmpty && replan.Plan is null)
            ConflictList.Write(page, replan.Input, new PlanAnswer { Conflicts = replan.Conflicts });
        else
            Headline.Title(page, replan.Input);
        page.Paragraph(page.Say("replan.before", replan.Before.Id), tone: Tone.Faint);
        if (isOtherInput)
            page.Paragraph(page.Say("replan.other-input"), tone: Tone.Alert);
        if (!replan.Problems.IsEmpty)
        {
            Problems(page, replan);
            return;
        }
        if (replan.Plan is not { } plan)
        {
            Standing(page, replan);
            return;
        }

        page.Gap();
        foreach (var promise in replan.Promises)
            Promise(page, replan, plan, promise);
        Money(page, replan, plan);
        Moves(page, replan);
        Stays(page, replan);
        Standing(page, replan);
        Timeline.Write(page, replan.Input, plan);
        StepList.Write(page, replan.Input, plan);
        PickList.Write(page, plan);
        OrderList.Write(page, plan);
        MixList.Write(page, plan);
        Remarks.Write(page, plan);
        page.Gap();
        page.Line(new Run(page.Say("print.plan-id", plan.Id, plan.Seed, plan.EngineVersion), Tone.Faint));
    }

    private static void Problems(Page page, Replan replan)
    {
        page.Gap();
        page.Line(new Run(page.Say("replan.problems"), Tone.Alert));
        foreach (var problem in replan.Problems)
            page.Bullet(page.Format.Sentence(problem));
    }

    private static void Promise(Page page, Replan replan, Plan plan, PromiseChange promise)
    {
        var tone = promise.Kept ? Tone.Answer : Tone.Alert;
        if (promise.IsSlot)
        {
            page.Paragraph(promise.Kept ? page.Say("replan.slot-kept", promise.After) : page.Say("replan.slot-moved", promise.After, promise.Before), tone: tone);
            bool painted = replan.Input.Repair.DoneOn(null, StepKind.Paint) is not null;
            if (!painted)
                page.Paragraph(plan.ReadyForPaint == replan.Before.ReadyForPaint
                    ? page.Say("replan.ready-same", plan.ReadyForPaint)
                    : page.Say("replan.ready", plan.ReadyForPaint, page.Format.Shift(plan.ReadyForPaint - replan.Before.ReadyForPaint)));
            return;
        }
        var late = promise.After - replan.Input.Repair.Promise;
        string handOver = promise.Kept ? page.Say("replan.hand-over-kept", promise.After, promise.Before) : page.Say("replan.hand-over-moved", promise.After, promise.Before);
        page.Paragraph(handOver + page.Say(late > Duration.Zero ? "replan.after-promise" : "replan.before-promise", late > Duration.Zero ? late : -late, replan.Input.Repair.Promise), tone: late > Duration.Zero ? Tone.Alert : Tone.Plain);
    }

    private static void Money(Page page, Replan replan, Plan plan)
    {
        // The sum of what is shown: a cent of rounding would only puzzle.
        var total = replan.SpentSoFar.Rounded + plan.Cost.Total.Rounded;
        page.Paragraph(page.Say("replan.money", page.Format.Text(total, "currency"), replan.SpentSoFar, plan.Cost.Total, replan.Before.Total, page.Format.Text(total - replan.Before.Total, "signed")));
        page.Paragraph(replan.PriceOfMoves.Amount == 0 ? page.Say("replan.no-price") : page.Say("replan.price", replan.PriceOfMoves, replan.Input.Shop.TimeValue.MovedWork, replan.Input.Shop.TimeValue.MovedPromise));
    }

    /// <summary>What moves, each with its reason under it; alike ones follow each other and tell it once.</summary>
    private static void Moves(Page page, Replan replan)
    {
        page.Title(page.Say("replan.moves"));
        if (replan.Moves.IsEmpty)
        {
            page.Paragraph(page.Say("replan.nothing-moves"));
            return;
        }
        var grid = new Grid(page, new Column("", 14), new Column(page.Say("replan.now"), 12), new Column(page.Say("replan.announced"), 12), new Column(page.Say("replan.move"), 8), new Column(page.Say("replan.costs"), Right: true));
        for (int i = 0; i < replan.Moves.Length; i++)
        {
            var move = replan.Moves[i];
            grid.Row(
                new Run(What(page, replan, move), Tone.Strong), When(page, move.After, move.Before), new Run(When(page, move.Before, move.After), Tone.Faint),
                page.Format.Word(move.Kind), move.Price.Amount == 0 ? "" : page.Format.Text(move.Price, ""));
            string why = Why(page, move);
            if (i + 1 == replan.Moves.Length || Why(page, replan.Moves[i + 1]) != why)
                grid.Under(why);
        }
        grid.Write();
    }

    private static string Why(Page page, Move move) => string.Join("; ", move.Why.Select(page.Format.Sentence));

    private static string What(Page page, Replan replan, Move move)
    {
        var step = (move.After ?? move.Before)! with { Places = move.Places, Material = null, Amount = Volume.Zero, StripLength = Length.Zero, Nozzles = 0, HeatTo = null };
        return StepList.What(page, replan.Input, step);
    }

    private static string When(Page page, Step? step, Step? other)
    {
        if (step is null)
            return page.Say("replan.none");
        string text = $"{page.Format.Moment(step.Start)} {step.Person}";
        return step.Material is { } material && other is not null && other.Material != material ? $"{text}, {material}" : text;
    }

    private static void Stays(Page page, Replan replan)
    {
        if (replan.Stays.IsEmpty)
            return;
        page.Title(page.Say("replan.stays"));
        var works = replan.Stays.Select(step => $"{Sentence.Phrase(StepList.What(page, replan.Input, step with { Material = null, Amount = Volume.Zero, StripLength = Length.Zero, Nozzles = 0 }))} ({page.Format.Moment(step.Start)})");
        page.Paragraph(string.Join(" · ", works));
    }

    private static void Standing(Page page, Replan replan)
    {
        var works = replan.Standing.Where(work => work.Step.Person is not null || work.Step.Kind is StepKind.Lamp or StepKind.Paint).ToList();
        if (works.Count == 0)
            return;
        page.Title(page.Say("replan.standing"));
        var grid = new Grid(page, new Column("", 12), new Column("", 8), new Column("", 8), new Column("", 20));
        foreach (var work in works)
        {
            string late = work.Announced is { } announced && work.State != WorkState.Lost ? Late(page, work.Step.End - announced.End) : "";
            grid.Row(
                new Run(page.Format.Between(work.Step.Start, work.Step.End), Tone.Strong), work.Step.Person ?? page.Say("print.by-itself"),
                new Run(page.Format.Word(work.State), work.State == WorkState.Done ? Tone.Plain : Tone.Alert), StepList.What(page, replan.Input, work.Step) + late);
        }
        grid.Write();
    }

    private static string Late(Page page, Duration shift) => shift == Duration.Zero ? "" : page.Say("replan.shift", page.Format.Shift(shift));
}
